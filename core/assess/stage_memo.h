// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/stages.h"

#include <deque>
#include <mutex>
#include <utility>

namespace bw {

/// The newest few results of a stage, found again by equal inputs. May be used from several threads; two that want the same at once both
/// make it.
template <class Inputs, class Result>
class StageResults {
 public:
  explicit StageResults(std::size_t most) : m_most(most) {}
  StageResults(const StageResults& other) : m_most(other.m_most) {
    const std::scoped_lock lock(other.m_mutex);
    m_known = other.m_known;
  }
  StageResults& operator=(const StageResults&) = delete;

  /// What `make()` gave for equal inputs, or gives now.
  template <class Make>
  std::shared_ptr<const Result> get(const Inputs& inputs, const Make& make) {
    if (auto known = find(inputs)) return known;
    std::shared_ptr<const Result> made = make();
    const std::scoped_lock lock(m_mutex);
    m_known.emplace_front(inputs, made);
    if (m_known.size() > m_most) m_known.pop_back();
    return made;
  }

 private:
  std::shared_ptr<const Result> find(const Inputs& inputs) {
    const std::scoped_lock lock(m_mutex);
    for (auto known = m_known.begin(); known != m_known.end(); ++known) {
      if (!(known->first == inputs)) continue;
      const auto found = *known;
      m_known.erase(known);
      m_known.push_front(found);
      return found.second;
    }
    return nullptr;
  }

  std::size_t m_most;
  mutable std::mutex m_mutex;
  std::deque<std::pair<Inputs, std::shared_ptr<const Result>>> m_known;  // the one used last first
};

/// Remembers stages of assessments, so that one that differs in a few inputs makes anew only what depends on these. The numbers bound its
/// memory: dose maps and heat take some ten megabytes each. A copy begins with what the original knows.
struct StageMemo {
  StageResults<ScanInputs, ScanWork> scan{8};
  StageResults<DoseInputs, DoseFound> dose{3};
  StageResults<HeatInputs, BareHeat> heat{4};
  StageResults<StrippingInputs, HeatedTour> stripping{4};
  StageResults<PlacesInputs, std::vector<Place>> places{4};
  StageResults<RemovalInputs, RemovalFound> removal{8};
};

}  // namespace bw
