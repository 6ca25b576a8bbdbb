// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/remedy_candidates.h"
#include "core/assess/stage_memo.h"

namespace bw {

/// Assesses changes of one plan's first step: a quick look without the heat first, and in full only what that lets hope for.
class RemedyTrials {
 public:
  /// `now`: the plan as it is, without ranges. `lent`: with a memo of stages that changes may share.
  RemedyTrials(const Project& project, const Assessment& now, const Library& shipped, std::stop_token stop, const Lent& lent);

  const Assessment& now() const { return m_now; }
  /// How many more may be assessed in full.
  int left() const { return m_left; }
  void allow(int more) { m_left = more; }

  /// The change with as many passes as it needs, assessed in full. Nothing where the machine cannot do it at all, where the quick look
  /// shows that its check is no better or that the coat would stay on, and where no more may be assessed.
  std::optional<Remedy> tried(const Candidate& candidate, const Assessment& before);

 private:
  Project changed(const Candidate& candidate) const;
  Assessment quickLook(const Candidate& candidate) const;
  std::shared_ptr<const Assessment> inFull(const Candidate& candidate);
  int passesFor(const Candidate& candidate, const RemovalResult& removal) const;

  const Project& m_project;
  const Assessment& m_now;
  const Library& m_shipped;
  std::stop_token m_stop;
  const Lent& m_lent;
  Settings m_planned;
  int m_left = 1000;
};

/// What the plan's first step is set to.
Settings firstSettings(const Project& project, const std::string& planName);

}  // namespace bw
