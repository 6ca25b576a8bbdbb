// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"
#include "core/files/library_file.h"
#include "core/heat/limits.h"
#include "core/library/prediction.h"
#include "core/text/text.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"
#include "tests/ui/support.h"
#include "ui/library/prediction_lines.h"
#include "ui/plots/depth_plot.h"
#include "ui/plots/dose_map_plot.h"
#include "ui/plots/heat_curves.h"
#include "ui/plots/heat_plot.h"
#include "ui/plots/remaining.h"
#include "ui/plots/remains_plot.h"
#include "ui/start/example.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"

#include <algorithm>
#include <cmath>

using namespace bw;

namespace {

QString plainly(QString text) { return text.replace(QChar(0x00a0), QLatin1Char(' ')); }

template <class Plot>
QString statementOf(const Project& project, const std::shared_ptr<const Assessment>& assessment, bool compact = false) {
  Plot plot;
  plot.resize(700, 420);
  plot.setProject(project);
  plot.setCompact(compact);
  plot.setAssessment(assessment);
  return plainly(plot.statement());
}

const VerdictRow& verdictRow(const Assessment& assessment, const std::string& check) {
  return *std::ranges::find(assessment.verdict, check, &VerdictRow::check);
}

bool tells(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

/// The peaks of the heat curves, as they are labelled, are the temperatures that verdict, table and results tell of.
void checkTemperatures(const Assessment& deep) {
  const ThermalResult& thermal = deep.thermal;
  if (!thermal.back_C) return;
  const HeatCurves atFront = curvesOf(thermal.trace), atBack = curvesOf(thermal.backTrace);
  CHECK(format::temperature(std::ranges::max(atBack.worseBack())) == format::temperature(*thermal.back_C));
  CHECK(format::temperature(std::ranges::max(atFront.worseFront())) == format::temperature(*thermal.front_C));
  const std::string table = assessmentTable(deep);
  CHECK(tells(table, text::temperature(*thermal.back_C)));
  if (const LimitResult* limit = tellingLimit(thermal.limits))
    CHECK(tells(verdictRow(deep, "temperature").message, text::temperature(limit->predicted_C)));
  CHECK(plainly(format::temperature(*thermal.back_C)).toStdString() == text::temperature(*thermal.back_C));
}

void checkPasses(const Project& project, const std::shared_ptr<const Assessment>& deep) {
  if (!deep->removal.computed) return;
  const auto passes = deep->removal.passesNeeded;
  const QString depth = statementOf<DepthPlot>(project, deep);
  CAPTURE(depth.toStdString());
  const bool hasRange = deep->ranges && deep->ranges->passesNeeded.low != deep->ranges->passesNeeded.high;
  if (passes && *passes > 0) {
    CHECK(depth.contains(hasRange ? QStringLiteral("likely %1").arg(*passes) : QString::number(*passes)));
    CHECK(tells(assessmentTable(*deep), "passes needed           " + std::to_string(*passes)));
  } else if (!passes) {
    CHECK_FALSE(depth.contains("likely"));
  }
}

void checkCleared(const Project& project, const std::shared_ptr<const Assessment>& deep) {
  if (!deep->removal.clearedFraction || !deep->removal.map) return;
  const int planned = findPlan(project, deep->plan)->settings.passes;
  CHECK(clearShare(deep->removal, planned) == Catch::Approx(*deep->removal.clearedFraction).margin(1e-9));
  const std::string share = text::percent(*deep->removal.clearedFraction);
  CHECK(plainly(format::percent(*deep->removal.clearedFraction)).toStdString() == share);
  CHECK(tells(assessmentTable(*deep), "cleared as planned      " + share));
  const std::string& row = verdictRow(*deep, "removal").message;
  if (tells(row, "planned leave")) CHECK(tells(row, text::percent(1 - *deep->removal.clearedFraction) + " of the surface coated"));
}

void checkMissed(const Project& project, const std::shared_ptr<const Assessment>& deep) {
  if (!deep->dose || !deep->map) return;
  const QString map = statementOf<DoseMapPlot>(project, deep);
  const std::string share = text::percent(deep->dose->missedFraction), row = verdictRow(*deep, "evenness").message;
  CAPTURE(map.toStdString(), row, share);
  CHECK(map.contains("nothing missed") == !tells(row, "of the surface gets less than half"));
  if (!map.contains("nothing missed")) {
    CHECK(map.toStdString().find(share + " missed") != std::string::npos);
    CHECK(tells(row, share + " of the surface gets less than half"));
  }
  CHECK_FALSE(tells(row, "0.0 %"));
  CHECK_FALSE(tells(row, " 0 %"));
}

/// What a recipe's page and the carry-over show comes from the same prediction.
void checkPrediction(const Assessment& deep) {
  RecipeVersion version;
  version.predicted = predictionOf(deep);
  for (const PredictionLine& line : predictionLines(version)) {
    CAPTURE(line.name.toStdString(), line.predicted.toStdString());
    if (line.name == "Back face, highest" && deep.thermal.back_C) {
      const QString back = plainly(format::temperature(*deep.thermal.back_C)).section(QLatin1Char(' '), 0, 0);
      CHECK(plainly(line.predicted).contains(back));
    }
    if (line.name == "Time" && deep.job.needed) {
      const QString time = plainly(format::duration(deep.job.needed->totalTime_s));
      CHECK(plainly(line.predicted).contains(time.section(QLatin1Char(' '), 0, 0)));
    }
  }
}

}  // namespace

TEST_CASE("All places that tell the same of a sample tell the same number", "[samples]") {
  const QStringList files = exampleFiles();
  for (const QString& file : test::sampled(std::vector<QString>(files.begin(), files.end()), 3)) {
    const Project project = *loadExample(file);
    for (const Plan& plan : project.plans) {
      CAPTURE(file.toStdString(), plan.name);
      const Assessment first = assess(project, plan.name, shippedLibrary());
      const auto deep = std::make_shared<const Assessment>(inDepth(project, shippedLibrary(), first));
      Project shown = project;
      shown.plans = {plan};
      checkTemperatures(*deep);
      checkPasses(shown, deep);
      checkCleared(shown, deep);
      checkMissed(shown, deep);
      checkPrediction(*deep);
    }
  }
}
