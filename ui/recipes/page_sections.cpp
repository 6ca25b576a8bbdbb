// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/page_parts.h"

#include "core/files/library_file.h"
#include "ui/fields/quantity_text.h"
#include "ui/recipes/coat_strip.h"
#include "ui/recipes/prediction_lines.h"
#include "ui/recipes/recipe_words.h"
#include "ui/recipes/setting_lines.h"
#include "ui/style/format.h"

#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace bw::parts {
namespace {

QString tr(const char* text) { return QCoreApplication::translate("RecipePage", text); }
QString told(const std::string& text) { return QString::fromStdString(text); }

const Library& materialsFor(const RecipeVersion& version, const std::string& substrate) {
  return findSubstrate(version.materials, substrate) ? version.materials : shippedLibrary();
}

QString metalWords(const RecipeVersion& version) {
  const Part& part = version.part;
  return tr("%1 mm %2")
      .arg(writeQuantity(part.thickness_m, quantities::length),
           words::substrate(materialsFor(version, part.substrate), part.substrate).toLower());
}

const Machine* machineOf(const RecipeVersion& version, const std::string& id) {
  const auto found = std::ranges::find(version.machines, id, &Machine::id);
  return found == version.machines.end() ? nullptr : &*found;
}

QString machineWords(const Machine* machine, const std::string& id) {
  if (!machine) return tr("%1 (its profile did not come along)").arg(words::readable(id));
  return tr("%1, %2, %3, spot %4")
      .arg(told(machine->name), words::machineKind(machine->kind), withUnit(machine->ratedPower_W, quantities::power),
           format::micrometres(machine->spotDiameter_m));
}

QStringList cautions(const RecipeDetail& detail) {
  QStringList sentences;
  if (detail.recipe.state == RecipeState::Withdrawn) {
    sentences << tr("Withdrawn: do not dial these.");
  } else if (!isJudged(detail.shown.proof)) {
    sentences << tr("Planned, not proven: try them on scrap or a hidden spot first.");
  } else if (!detail.stale.empty()) {
    sentences << tr("The proof is stale: try them again on scrap or a hidden spot.");
  } else {
    sentences << tr("Proven on one part. Another coat may differ: a patch on a hidden spot decides.");
  }
  sentences << tr("Eyewear for the wavelength for everyone in the room, extraction before the beam, nothing that burns behind the metal.");
  return sentences;
}

Status statusOf(const RecipeDetail& detail) {
  if (detail.recipe.state == RecipeState::Withdrawn) return Status::Fails;
  return isJudged(detail.shown.proof) && detail.stale.empty() ? Status::Meets : Status::Near;
}

QStringList stepTitle(const Step& step, std::size_t index, const RecipeVersion& version) {
  QString title = tr("Step %1").arg(index + 1);
  if (!step.name.empty()) title += QStringLiteral(": ") + told(step.name);
  return {title, machineWords(machineOf(version, step.machine), step.machine)};
}

QString seenWords(const Trial& trial) {
  QStringList seen;
  for (const Seen one : trial.seen) seen << words::seen(one);
  return seen.isEmpty() ? tr("nothing noted") : seen.join(QStringLiteral(", "));
}

std::vector<std::vector<Reading>> byKind(const std::vector<Reading>& readings) {
  std::vector<std::vector<Reading>> groups;
  for (const Reading& reading : readings) {
    const auto same = std::ranges::find_if(groups, [&](const auto& group) { return group.front().kind == reading.kind; });
    (same == groups.end() ? groups.emplace_back() : *same).push_back(reading);
  }
  return groups;
}

}  // namespace

QWidget* purpose(const RecipeVersion& version) {
  auto* table = new Table({});
  table->setObjectName(QStringLiteral("recipePurpose"));
  table->add({tr("Metal"), metalWords(version)});
  table->add({tr("Finish"), words::finish(version.part.finish)});
  QStringList areas;
  for (const Area& area : version.part.areas) areas << tr("%1 (%2)").arg(told(area.name), format::area(area.area_m2));
  if (!areas.isEmpty()) table->add({tr("Areas"), areas.join(QStringLiteral(", "))});
  const auto limit = version.part.limits.find("back_face_C");
  if (limit != version.part.limits.end()) table->add({tr("Back face"), tr("at most %1").arg(format::temperature(limit->second))});
  if (const Machine* machine = mainMachine(version)) table->add({tr("Machine"), machineWords(machine, machine->id)});
  if (!version.note.empty()) table->add({tr("Note"), told(version.note)});
  return section(tr("What it is for"), table);
}

QWidget* coat(const RecipeVersion& version) {
  return section(tr("Coat"), new CoatStrip(layerPictures(version.coat, version.materials), metalWords(version)));
}

QWidget* settings(const RecipeDetail& detail) {
  auto* content = new QWidget;
  content->setObjectName(QStringLiteral("recipeSettings"));
  auto* column = new QVBoxLayout(content);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  column->addWidget(note(cautions(detail), statusOf(detail), QStringLiteral("recipeCautions")));
  const std::vector<Step> steps = stepsOf(detail.shown.plan);
  for (std::size_t index = 0; index < steps.size(); ++index) {
    const Step& step = steps[index];
    auto* table = new Table({});
    if (steps.size() > 1) table->add(stepTitle(step, index, detail.shown));
    if (step.optic) table->add({tr("Optic"), told(*step.optic)});
    if (step.before) table->add({tr("First, by hand"), told(*step.before)});
    for (const SettingLine& line : settingLines(step.settings, machineOf(detail.shown, step.machine))) table->add({line.name, line.value});
    if (step.until) table->add({tr("Until"), told(*step.until)});
    column->addWidget(table);
  }
  return section(tr("Settings, in the order they are dialled"), content);
}

QWidget* predicted(const RecipeVersion& version) {
  auto* content = new QWidget;
  content->setObjectName(QStringLiteral("recipePredicted"));
  auto* column = new QVBoxLayout(content);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  const std::vector<PredictionLine> lines = predictionLines(version.predicted, version.proof);
  if (!lines.empty()) {
    auto* table = new Table({QString(), tr("predicted, 9 in 10 such jobs"), tr("measured")});
    for (const PredictionLine& line : lines) {
      table->add({line.name, line.predicted.isEmpty() ? tr("not known") : line.predicted,
                  line.proven.isEmpty() ? tr("not measured") : line.proven});
    }
    column->addWidget(table);
  }
  for (const std::string& fails : version.predicted.fails)
    column->addWidget(note({told(fails)}, Status::Fails, QStringLiteral("predictedFail")));
  column->addWidget(text(version.predicted.modelVersion.empty()
                             ? tr("Nothing was predicted when it was saved.")
                             : tr("Predicted with model version %1.").arg(told(version.predicted.modelVersion)),
                         QPalette::PlaceholderText));
  return section(tr("Predicted against proven"), content);
}

QWidget* trials(const RecipeVersion& version) {
  if (!version.proof) return section(tr("Proof"), text(tr("No trial was made yet.")));
  const Proof& proof = *version.proof;
  auto* table = new Table({});
  table->setObjectName(QStringLiteral("recipeProof"));
  if (isJudged(proof)) {
    table->add({tr("Judged"), tr("%1 by %2").arg(words::date(proof.date), told(proof.initials))});
  } else {
    table->add({tr("Judged"), tr("not yet: the trials wait for somebody's word")});
  }
  if (!proof.note.empty()) table->add({tr("Note"), told(proof.note)});
  for (const Trial& trial : proof.trials) {
    const QString by = trial.initials.empty() ? tr("not signed") : told(trial.initials);
    QStringList what{tr("%1: %2").arg(trial.where.empty() ? tr("place not noted") : told(trial.where), seenWords(trial))};
    for (const auto& readings : byKind(trial.readings))
      what << tr("%1 %2").arg(words::readingKind(readings.front().kind), words::readings(readings));
    if (!trial.note.empty()) what << told(trial.note);
    table->add(
        {tr("Trial %1, %2").arg(trial.date.empty() ? tr("not dated") : words::date(trial.date), by), what.join(QStringLiteral("; "))});
  }
  if (proof.trials.empty()) table->add({tr("Trials"), tr("none")});
  return section(tr("Proof"), table);
}

QWidget* nearness(const FoundRecipe& found) {
  QStringList sentences;
  if (found.parts.empty()) sentences << tr("The same metal, coat and machine as the open plan.");
  for (const DistancePart& part : found.parts) sentences << told(part.words);
  auto* table = new Table({});
  table->setObjectName(QStringLiteral("recipeNearness"));
  for (const QString& sentence : sentences) table->add({QStringLiteral("•"), sentence});
  return section(found.parts.empty() ? tr("As near as can be") : tr("What differs from the open part, most first"), table);
}

QWidget* changes(const RecipeDetail& detail) {
  constexpr std::size_t most = 8, longest = 80;
  if (detail.changed.empty()) return nullptr;
  QStringList lines;
  std::size_t more = 0;
  bool proof = false;
  for (const Difference& difference : detail.changed) {
    const bool ofProof = difference.key.starts_with("proof");  // which stands above in full
    const bool ofPrediction = difference.key.starts_with("predicted");
    proof |= ofProof;
    if (ofProof || ofPrediction || difference.was.size() + difference.is.size() > longest) continue;
    if (static_cast<std::size_t>(lines.size()) < most) {
      lines << told(inWords(difference));
    } else {
      ++more;
    }
  }
  if (proof) lines << tr("the proof");
  if (more > 0) lines << tr("and %1 more").arg(more);
  if (lines.isEmpty()) return nullptr;
  return text(tr("Changed since version %1: %2.").arg(detail.shown.number - 1).arg(lines.join(QStringLiteral("; "))),
              QPalette::PlaceholderText);
}

}  // namespace bw::parts
