// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/prediction.h"

#include "core/files/assessment_file.h"
#include "core/files/json_io.h"

#include <array>
#include <utility>

namespace bw {
namespace {

constexpr std::array headlines = {"beam.mean_power_W",     "beam.peak_fluence_J_cm2",
                                  "overlap.pulse_overlap", "overlap.line_overlap",
                                  "dose.mean_J_cm2",       "dose.cv",
                                  "removal.passes_needed", "removal.cleared_fraction",
                                  "removal.rate_cm2_s",    "removal.heat_into_part_fraction",
                                  "thermal.near_C",        "thermal.front_C",
                                  "thermal.back_C",        "thermal.worst_margin",
                                  "finish.etch_um",        "job.beam_time_s",
                                  "job.total_time_s",      "job.cost"};

std::optional<double> known(const Json& json) { return json.is_number() ? std::optional(json.get<double>()) : std::nullopt; }

/// The key, under job, of the same for the passes that are needed; nothing where there is none.
const char* neededKey(const std::string& key) {
  constexpr std::array<std::pair<const char*, const char*>, 3> needed{
      {{"job.beam_time_s", "beam_time_needed_s"}, {"job.total_time_s", "total_time_needed_s"}, {"job.cost", "cost_needed"}}};
  for (const auto& [planned, other] : needed)
    if (key == planned) return other;
  return nullptr;
}

PredictedNumber numberAt(const Json& results, const std::string& key) {
  PredictedNumber number;
  const std::size_t dot = key.find('.');
  number.likely = known(results[key.substr(0, dot)].value(key.substr(dot + 1), Json()));
  const Json range = results["ranges"].value(key, Json());
  if (range.is_array() && range.size() == 3) {
    number.low = known(range[0]);
    number.high = known(range[2]);
    // Ranges of the job are for the passes it needs, the results' own number for those planned: one figure must mean one thing.
    if (const char* needed = neededKey(key)) number.likely = known(results["job"].value(needed, Json()));
  }
  return number;
}

}  // namespace

Prediction predictionOf(const Assessment& assessment) {
  const Json results = Json::parse(writeAssessment(assessment));  // keys and units are those of the results
  Prediction prediction;
  prediction.modelVersion = modelVersion;
  for (const char* key : headlines) {
    if (const PredictedNumber number = numberAt(results, key); number != PredictedNumber{}) prediction.numbers[key] = number;
  }
  for (const VerdictRow& row : assessment.verdict) {
    if (row.status == Status::Fails) prediction.fails.push_back(row.message);
  }
  return prediction;
}

}  // namespace bw
