// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/carry_lines.h"

#include "ui/library/prediction_lines.h"
#include "ui/library/recipe_words.h"
#include "ui/library/setting_lines.h"
#include "ui/style/format.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace bw {
namespace {

struct CarryLines {
  Q_DECLARE_TR_FUNCTIONS(CarryLines)
};

/// Lines of two lists by their name: in the order of `after`, and where the others stood those that only `before` has.
std::vector<BesideLine> merged(const std::vector<BesideLine>& before, const std::vector<BesideLine>& after) {
  std::vector<BesideLine> lines = after;
  auto at = lines.begin();
  for (const BesideLine& line : before) {
    const auto same = std::ranges::find(lines, line.name, &BesideLine::name);
    if (same == lines.end()) {
      at = std::next(lines.insert(at, line));
    } else {
      same->before = line.before;
      at = std::next(same);
    }
  }
  return lines;
}

std::vector<BesideLine> settingsOf(const RecipeVersion& version, bool after) {
  std::vector<BesideLine> lines;
  const std::vector<Step> steps = stepsOf(version.plan);
  if (steps.empty()) return lines;
  for (const SettingLine& line : settingLines(steps.front().settings, mainMachine(version)))
    lines.push_back({line.name, after ? QString() : line.value, after ? line.value : QString()});
  return lines;
}

std::vector<BesideLine> numbersOf(const Prediction& prediction, bool after) {
  std::vector<BesideLine> lines;
  RecipeVersion version;
  version.predicted = prediction;
  for (const PredictionLine& line : predictionLines(version))
    lines.push_back({line.name, after ? QString() : line.predicted, after ? line.predicted : QString()});
  return lines;
}

}  // namespace

QString machineFacts(const Machine& machine) {
  return CarryLines::tr("%1, %2, %3\u00a0nm")
      .arg(words::machineKind(machine.kind), format::power(machine.ratedPower_W))
      .arg(std::lround(machine.wavelength_m * 1e9));
}

QStringList missingRegime(const std::vector<Carried>& carried) {
  QStringList sentences;
  std::vector<std::string> reasons;
  for (const Carried& one : carried) {
    if ((one.before == "none") == (one.after == "none") || std::ranges::find(reasons, one.why) != reasons.end()) continue;
    reasons.push_back(one.why);
    QStringList names;
    for (const Carried& other : carried) {
      if (other.why == one.why && (other.before == "none") != (other.after == "none")) names << QString::fromStdString(other.quantity);
    }
    sentences << CarryLines::tr("It cannot be carried over whole: %1. That leaves out: %2.")
                     .arg(QString::fromStdString(one.why), names.join(QStringLiteral(", ")));
  }
  return sentences;
}

std::vector<BesideLine> settingsBeside(const RecipeVersion& before, const RecipeVersion& after) {
  return merged(settingsOf(before, false), settingsOf(after, true));
}

std::vector<BesideLine> predictionsBeside(const Prediction& before, const Prediction& after) {
  return merged(numbersOf(before, false), numbersOf(after, true));
}

std::vector<VerdictBeside> verdictsBeside(const Assessment* before, const Assessment* after) {
  std::vector<VerdictBeside> lines;
  std::vector<std::string> checks;
  const auto lineOf = [&](const VerdictRow& row) -> VerdictBeside& {
    const auto known = std::ranges::find(checks, row.check);
    if (known != checks.end()) return lines[static_cast<std::size_t>(known - checks.begin())];
    checks.push_back(row.check);
    return lines.emplace_back(VerdictBeside{QString::fromStdString(row.question), {}, {}, {}});
  };
  if (after) {
    for (const VerdictRow& row : after->verdict) {
      VerdictBeside& line = lineOf(row);
      line.after = row.status;
      line.message = QString::fromStdString(row.message);
    }
  }
  if (before) {
    for (const VerdictRow& row : before->verdict) lineOf(row).before = row.status;
  }
  return lines;
}

}  // namespace bw
