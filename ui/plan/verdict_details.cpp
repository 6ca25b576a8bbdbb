// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_details.h"

#include "ui/plots/heat_words.h"
#include "ui/plots/remaining.h"
#include "ui/style/format.h"
#include "ui/style/to_qt.h"
#include "ui/style/units.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

struct VerdictDetails {
  Q_DECLARE_TR_FUNCTIONS(VerdictDetails)
};

template <class Get>
std::optional<Spread> spreadOf(const Assessment& assessment, Get get) {
  return assessment.ranges ? std::optional<Spread>(get(*assessment.ranges)) : std::nullopt;
}

std::optional<Spread> spreadOf(const Assessment& assessment, std::optional<Spread> Ranges::*field) {
  return assessment.ranges ? *assessment.ranges.*field : std::nullopt;
}

const Settings* settingsOf(const Assessment& assessment, const Project& project) {
  const Plan* plan = findPlan(project, assessment.plan);
  if (plan == nullptr) return nullptr;
  return plan->steps.empty() ? &plan->settings : &plan->steps.front().settings;
}

/// A limit is set on this very number: then it stands with that limit.
bool hasLimit(const ThermalResult& thermal, std::optional<double> predicted_C) {
  return predicted_C && std::ranges::any_of(thermal.limits, [=](const LimitResult& limit) {
           return !limit.warnOnly && std::abs(limit.predicted_C - *predicted_C) < 1e-9;
         });
}

std::vector<RangeLine> removalRanges(const Assessment& assessment, const Project& project) {
  const RemovalResult& removal = assessment.removal;
  RangeLine passes{VerdictDetails::tr("Passes until clear"),
                   VerdictDetails::tr("Times the hand goes over the whole surface until 99 % of it is clear of all that should come off."),
                   format::passes, removal.passesNeeded ? std::optional<double>(*removal.passesNeeded) : std::nullopt};
  passes.spread = spreadOf(assessment, [](const Ranges& ranges) { return ranges.passesNeeded; });
  if (assessment.ranges) passes.neverShare = assessment.ranges->neverShare;
  if (const Settings* settings = settingsOf(assessment, project)) {
    passes.limit = settings->passes;
    passes.limitWords = VerdictDetails::tr("%1 planned").arg(settings->passes);
  }
  RangeLine bare{VerdictDetails::tr("Clear after the planned passes"),
                 VerdictDetails::tr("Share of the surface that is clear of all that should come off."), format::percent,
                 removal.clearedFraction};
  bare.spread = spreadOf(assessment, [](const Ranges& ranges) { return ranges.clearedFraction; });
  bare.most = 1;
  return {passes, bare};
}

std::vector<RangeLine> heatRanges(const Assessment& assessment) {
  const ThermalResult& thermal = assessment.thermal;
  RangeLine share{VerdictDetails::tr("Heat into the part"), VerdictDetails::tr("Share of the beam's energy that ends in the metal."),
                  format::percent, assessment.removal.heatIntoPartFraction};
  share.most = 1;
  if (share.single) share.spread = spreadOf(assessment, [](const Ranges& ranges) { return ranges.heatIntoPartFraction; });
  std::vector<RangeLine> lines;
  if (!hasLimit(thermal, thermal.back_C))
    lines.push_back({VerdictDetails::tr("Back face"), VerdictDetails::tr("Highest temperature on the far side of the metal."),
                     format::temperature, thermal.back_C, spreadOf(assessment, &Ranges::back_C)});
  if (!hasLimit(thermal, thermal.front_C))
    lines.push_back({VerdictDetails::tr("Front face"),
                     VerdictDetails::tr("Highest temperature of the worked side, without the flash of single pulses."), format::temperature,
                     thermal.front_C, spreadOf(assessment, &Ranges::front_C)});
  lines.push_back(share);
  return lines;
}

std::vector<RangeLine> timeRanges(const Assessment& assessment, const Project& project) {
  const std::string currency = project.currency;
  // Until the spreads are there, of the passes that are planned; then of those that are needed.
  const bool spread = assessment.ranges.has_value();
  const auto& needed = assessment.job.needed;
  const auto time_s = !spread ? assessment.job.totalTime_s : needed ? std::optional(needed->totalTime_s) : std::nullopt;
  const auto cost = !spread ? assessment.job.cost : needed ? needed->cost : std::nullopt;
  return {{spread ? VerdictDetails::tr("Time in all until clear") : VerdictDetails::tr("Time in all as planned"),
           VerdictDetails::tr("With waiting, moving about and setting up."), format::duration, time_s,
           spreadOf(assessment, &Ranges::totalTime_s)},
          {spread ? VerdictDetails::tr("Price until clear") : VerdictDetails::tr("Price as planned"),
           VerdictDetails::tr("Work, machine, energy and waste at your own rates."),
           [currency](double amount) { return format::money(amount, currency); }, cost, spreadOf(assessment, &Ranges::cost)},
          {VerdictDetails::tr("Pace"), VerdictDetails::tr("Surface that is clear in a minute of the beam's time, all passes counted."),
           [](double rate_m2_s) { return format::number(rate_m2_s * 1e4 * 60) + noBreak + QStringLiteral("cm²/min"); },
           assessment.removal.rate_m2_s, spreadOf(assessment, &Ranges::rate_m2_s)}};
}

QString tiltWords(double tilt_rad) {
  return VerdictDetails::tr("clears up to %1° of tilt").arg(format::number(tilt_rad * 180 / std::numbers::pi));
}

QString layerWords(const LayerResult& layer, const LayerRanges* ranges) {
  QStringList parts;
  if (layer.lost) {
    parts << VerdictDetails::tr("should stay, but the planned passes take %1 of it")
                 .arg(format::percent(layer.removed_m / layer.thickness_m));
  } else if (layer.kept) {
    parts << VerdictDetails::tr("stays");
  } else if (ranges != nullptr) {
    const QString passes = format::range(ranges->passes, format::passes, ranges->neverShare);
    parts << (std::isfinite(ranges->passes.low) ? VerdictDetails::tr("clear after %1").arg(passes) : passes);
  } else if (layer.passes) {
    parts << (*layer.passes == 1 ? VerdictDetails::tr("clear after 1 pass")
                                 : VerdictDetails::tr("clear after %1 passes").arg(*layer.passes));
  } else {
    parts << VerdictDetails::tr("does not clear");
  }
  if (!layer.stallReason.empty()) parts << VerdictDetails::tr("stalls: %1").arg(toQt(layer.stallReason));
  if (layer.clearsUpTo_rad && !layer.kept) parts << tiltWords(*layer.clearsUpTo_rad);
  return toQt(layer.name) + QStringLiteral(": ") + parts.join(QStringLiteral("; "));
}

QString layerTip(const LayerResult& layer) {
  if (layer.lost) return VerdictDetails::tr("A layer that should stay counts as lost where the planned passes eat into it.");
  if (!layer.stallReason.empty())
    return VerdictDetails::tr("A layer stalls where a pass takes nothing more off it, however often it is repeated.");
  if (layer.clearsUpTo_rad)
    return VerdictDetails::tr(
        "On a face that slopes the spot is stretched and weaker; beyond this tilt the planned passes no longer clear it.");
  return VerdictDetails::tr("Counted from the first pass until this layer and all above it are gone.");
}

QString stillHandWords(const StillHand& still) {
  if (!still.first_s) return VerdictDetails::tr("A hand that stands still is not through in %1.").arg(format::duration(still.followed_s));
  const QString first = VerdictDetails::tr("A hand that stands still is through after %1").arg(format::duration(*still.first_s));
  return still.most_s ? VerdictDetails::tr("%1, 95 % of the frame after %2.").arg(first, format::duration(*still.most_s))
                      : VerdictDetails::tr("%1; 95 % of the frame takes more than %2.").arg(first, format::duration(still.followed_s));
}

std::vector<Fact> removalFacts(const Assessment& assessment, const Project& project) {
  std::vector<Fact> facts;
  const auto& layers = assessment.removal.layers;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const LayerRanges* ranges = assessment.ranges && i < assessment.ranges->layers.size() ? &assessment.ranges->layers[i] : nullptr;
    facts.push_back({layerWords(layers[i], ranges), layerTip(layers[i]), colourOf(layers[i], project)});
  }
  if (assessment.removal.stillHand) {
    facts.push_back(
        {stillHandWords(*assessment.removal.stillHand),
         VerdictDetails::tr(
             "The time until the coat is off where the beam comes most, and over 95 % of the frame, if the hand does not move.")});
  }
  return facts;
}

std::vector<Fact> finishFacts(const Assessment& assessment) {
  const auto& melts_J_m2 = assessment.finish.meltFluence_J_m2;
  const auto& peak_J_m2 = assessment.beam.peakFluence_J_m2;
  if (!melts_J_m2 || !peak_J_m2) return {};
  return {{VerdictDetails::tr("Bare metal melts for an instant from %1 a pulse; the beam brings %2.")
               .arg(format::dose(*melts_J_m2), format::dose(*peak_J_m2)),
           VerdictDetails::tr("Energy of one pulse on each square centimetre in the middle of the spot (fluence).")}};
}

std::vector<Fact> flatnessFacts(const Assessment& assessment) {
  std::vector<Fact> facts;
  if (!assessment.thermal.flatness) return facts;
  for (const FlatnessTerm& term : flatnessTerms(*assessment.thermal.flatness)) facts.push_back({term.words, term.tip});
  return facts;
}

}  // namespace

std::vector<MarginLine> marginsFor(const std::string& check, const Assessment& assessment, const Project& project, bool moreToCome) {
  return check == "temperature" ? marginsOf(assessment, project, moreToCome) : std::vector<MarginLine>();
}

std::vector<RangeLine> rangesFor(const std::string& check, const Assessment& assessment, const Project& project, bool moreToCome) {
  std::vector<RangeLine> lines;
  if (check == "removal" && assessment.removal.computed) lines = removalRanges(assessment, project);
  if (check == "temperature") lines = heatRanges(assessment);
  if (check == "time") lines = timeRanges(assessment, project);
  if (check == "finish" && assessment.finish.etch_m) {
    lines = {{VerdictDetails::tr("Etch"), VerdictDetails::tr("Metal that the pulses on bare places take away."), format::length,
              assessment.finish.etch_m, spreadOf(assessment, &Ranges::etch_m)}};
  }
  std::erase_if(lines, [](const RangeLine& line) { return !line.single && !line.spread; });
  for (RangeLine& line : lines) {
    line.moreToCome = moreToCome;
    if (line.spread && line.single) line.spread->middle = *line.single;  // one likely number for a question, here as in every sentence
    if (line.spread && !std::isfinite(line.spread->high)) line.neverShare = assessment.ranges->neverShare;
  }
  return lines;
}

std::vector<Fact> factsFor(const VerdictRow& row, const Assessment& assessment, const Project& project) {
  if (row.check == "removal" && assessment.removal.computed) return removalFacts(assessment, project);
  if (row.check == "finish") return finishFacts(assessment);
  if (row.check == "flatness") return flatnessFacts(assessment);
  return {};
}

}  // namespace bw
