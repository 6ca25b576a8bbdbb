// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/prediction_lines.h"

#include "core/library/proof.h"
#include "ui/library/recipe_words.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <iterator>
#include <limits>

namespace bw {
namespace {

struct PredictionLines {
  Q_DECLARE_TR_FUNCTIONS(PredictionLines)
};

QString fluence(double value_J_cm2) { return format::number(value_J_cm2) + QStringLiteral("\u00a0J/cm²"); }
QString micrometres(double value_um) { return format::number(value_um) + QStringLiteral("\u00a0µm"); }
QString plain(double value) { return format::number(value); }

struct Headline {
  const char* key;                    // of the results
  std::vector<std::string> readings;  // the kinds of reading that measure the same
  const char* name;
  format::Shown shown;
};

const std::vector<Headline>& headlines() {
  static const std::vector<Headline> list{
      {"removal.passes_needed", {"passes", "passes_to_clear"}, QT_TRANSLATE_NOOP("PredictionLines", "Passes to clear"), format::passes},
      {"removal.cleared_fraction", {}, QT_TRANSLATE_NOOP("PredictionLines", "Clear after the passes"), format::percent},
      {"thermal.front_C", {"front_C", "face_C"}, QT_TRANSLATE_NOOP("PredictionLines", "Front face, highest"), format::temperature},
      {"thermal.back_C", {"back_C"}, QT_TRANSLATE_NOOP("PredictionLines", "Back face, highest"), format::temperature},
      {"finish.etch_um", {"etch_um"}, QT_TRANSLATE_NOOP("PredictionLines", "Etch of bare metal"), micrometres},
      {"job.total_time_s", {"time_s"}, QT_TRANSLATE_NOOP("PredictionLines", "Time"), format::duration},
      {"job.cost", {}, QT_TRANSLATE_NOOP("PredictionLines", "Cost"), plain},
      {"beam.peak_fluence_J_cm2", {}, QT_TRANSLATE_NOOP("PredictionLines", "Fluence, peak"), fluence},
      {"dose.mean_J_cm2", {}, QT_TRANSLATE_NOOP("PredictionLines", "Dose per pass"), fluence}};
  return list;
}

QString shownNumber(const PredictedNumber& number, const format::Shown& shown) {
  constexpr double never = std::numeric_limits<double>::infinity();
  if (!number.low && !number.high) return number.likely ? shown(*number.likely) : QString();
  Spread spread;
  spread.low = number.low.value_or(number.likely.value_or(never));
  spread.middle = number.likely.value_or(never);
  spread.high = number.high.value_or(never);  // a missing upper bound: in some of ten such jobs it never gets there
  return format::range(spread, shown);
}

/// "96 °C ± 4; 101 °C": of each trial that measured it.
QString measured(const std::optional<Proof>& proof, const std::vector<std::string>& kinds) {
  QStringList texts;
  if (!proof) return {};
  for (const Trial& trial : proof->trials) {
    for (const std::string& kind : kinds) {
      std::vector<Reading> readings;
      std::ranges::copy_if(trial.readings, std::back_inserter(readings), [&](const Reading& reading) { return reading.kind == kind; });
      if (!readings.empty()) texts << words::readings(readings);
    }
  }
  return texts.join(QStringLiteral("; "));
}

std::vector<std::string> kindsOf(const std::optional<Proof>& proof) {
  std::vector<std::string> kinds;
  if (!proof) return kinds;
  for (const Trial& trial : proof->trials) {
    for (const Reading& reading : trial.readings) {
      if (std::ranges::find(kinds, reading.kind) == kinds.end()) kinds.push_back(reading.kind);
    }
  }
  return kinds;
}

/// On which sides of the predicted range trials with these settings measured.
QString outsideOf(const RecipeVersion& version, const std::string& key) {
  bool above = false, below = false;
  for (const Trial& trial : version.proof ? version.proof->trials : std::vector<Trial>()) {
    for (const OutsideRange& outside : outsidePrediction(version, trial)) {
      if (outside.key == key) (outside.above ? above : below) = true;
    }
  }
  if (above && below) return PredictionLines::tr("outside the predicted range");
  if (above) return PredictionLines::tr("above the predicted range");
  return below ? PredictionLines::tr("below the predicted range") : QString();
}

}  // namespace

std::vector<PredictionLine> predictionLines(const RecipeVersion& version) {
  const Prediction& prediction = version.predicted;
  const std::optional<Proof>& proof = version.proof;
  std::vector<PredictionLine> lines;
  std::vector<std::string> kinds = kindsOf(proof);
  for (const Headline& headline : headlines()) {
    const auto number = prediction.numbers.find(headline.key);
    const QString predicted = number == prediction.numbers.end() ? QString() : shownNumber(number->second, headline.shown);
    const QString proven = measured(proof, headline.readings);
    for (const std::string& kind : headline.readings) std::erase(kinds, kind);
    if (!predicted.isEmpty() || !proven.isEmpty())
      lines.push_back({PredictionLines::tr(headline.name), predicted, proven, outsideOf(version, headline.key)});
  }
  for (const std::string& kind : kinds) {
    QString name = words::readingKind(kind);
    if (!name.isEmpty()) name[0] = name[0].toUpper();
    lines.push_back({name, {}, measured(proof, {kind}), {}});
  }
  return lines;
}

}  // namespace bw
