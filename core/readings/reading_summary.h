// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_readings.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// What readings of one kind say together, in the unit that the kind names.
struct ReadingSummary {
  std::string kind;
  std::size_t count = 0;
  double mean = 0;
  std::optional<double> deviation;  // standard deviation of a single reading, by their scatter; nothing of one reading alone
  double least = 0;
  double most = 0;
};

/// Of each kind, in the order in which the kinds come. Readings that are no number are left out.
std::vector<ReadingSummary> summariesOf(const std::vector<Reading>& readings);

/// All of a kind as one reading: the mean, and as its uncertainty half the span that holds nine in ten of them by their scatter (Student's
/// t of as many degrees of freedom as there are readings but one).
Reading asOneReading(const ReadingSummary& summary);

/// The highest value of a temperature log, and when it was reached first.
struct SeriesPeak {
  std::string kind;
  double temperature_C = 0;
  double time_s = 0;  // since the log's first row
  std::size_t count = 0;
};

/// Nothing of an empty log.
std::optional<SeriesPeak> peakOf(const TemperatureSeries& series);

}  // namespace bw
