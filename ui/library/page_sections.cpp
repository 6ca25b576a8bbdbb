// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/page_parts.h"

#include "core/files/library_file.h"
#include "ui/fields/quantity_text.h"
#include "ui/library/coat_strip.h"
#include "ui/library/prediction_lines.h"
#include "ui/library/recipe_words.h"
#include "ui/library/setting_lines.h"
#include "ui/style/format.h"
#include "ui/style/to_qt.h"

#include <QCoreApplication>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace bw::parts {
namespace {

struct SectionWords {
  Q_DECLARE_TR_FUNCTIONS(SectionWords)
};

const Library& materialsFor(const RecipeVersion& version, const std::string& substrate) {
  return findSubstrate(version.materials, substrate) ? version.materials : shippedLibrary();
}

QString metalWords(const RecipeVersion& version) {
  const Part& part = version.part;
  return SectionWords::tr("%1 mm %2")
      .arg(writeQuantity(part.thickness_m, quantities::length),
           words::substrate(materialsFor(version, part.substrate), part.substrate).toLower());
}

const Machine* machineOf(const RecipeVersion& version, const std::string& id) {
  const auto found = std::ranges::find(version.machines, id, &Machine::id);
  return found == version.machines.end() ? nullptr : &*found;
}

QString machineWords(const Machine* machine, const std::string& id) {
  if (!machine) return SectionWords::tr("%1 (its profile did not come along)").arg(words::readable(id));
  return SectionWords::tr("%1, %2, %3, spot %4")
      .arg(toQt(machine->name), words::machineKind(machine->kind), withUnit(machine->ratedPower_W, quantities::power),
           format::micrometres(machine->spotDiameter_m));
}

QStringList cautions(const RecipeDetail& detail) {
  QStringList sentences;
  if (detail.recipe.state == RecipeState::Withdrawn) {
    sentences << SectionWords::tr("Withdrawn: do not dial these.");
  } else if (!isJudged(detail.shown.proof)) {
    sentences << SectionWords::tr("Planned, not proven: try them on scrap or a hidden spot first.");
  } else if (!detail.stale.empty()) {
    sentences << SectionWords::tr("The proof is stale: try them again on scrap or a hidden spot.");
  } else {
    sentences << SectionWords::tr("Proven on one part. Another coat may differ: a patch on a hidden spot decides.");
  }
  sentences << SectionWords::tr(
      "Eyewear for the wavelength for everyone in the room, extraction before the beam, nothing that burns behind the metal.");
  return sentences;
}

Status statusOf(const RecipeDetail& detail) {
  if (detail.recipe.state == RecipeState::Withdrawn) return Status::Fails;
  return isJudged(detail.shown.proof) && detail.stale.empty() ? Status::Meets : Status::Near;
}

QStringList stepTitle(const Step& step, std::size_t index, const RecipeVersion& version) {
  QString title = SectionWords::tr("Step %1").arg(index + 1);
  if (!step.name.empty()) title += QStringLiteral(": ") + toQt(step.name);
  return {title, machineWords(machineOf(version, step.machine), step.machine)};
}

QString seenWords(const Trial& trial) {
  QStringList seen;
  for (const Seen one : trial.seen) seen << words::seen(one);
  return seen.isEmpty() ? SectionWords::tr("nothing noted") : seen.join(QStringLiteral(", "));
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
  table->add({SectionWords::tr("Metal"), metalWords(version)});
  table->add({SectionWords::tr("Finish"), words::finish(version.part.finish)});
  QStringList areas;
  for (const Area& area : version.part.areas) areas << SectionWords::tr("%1 (%2)").arg(toQt(area.name), format::area(area.area_m2));
  if (!areas.isEmpty()) table->add({SectionWords::tr("Areas"), areas.join(QStringLiteral(", "))});
  const auto limit = version.part.limits.find("back_face_C");
  if (limit != version.part.limits.end())
    table->add({SectionWords::tr("Back face"), SectionWords::tr("at most %1").arg(format::temperature(limit->second))});
  if (const Machine* machine = mainMachine(version)) table->add({SectionWords::tr("Machine"), machineWords(machine, machine->id)});
  if (!version.note.empty()) table->add({SectionWords::tr("Note"), toQt(version.note)});
  return section(SectionWords::tr("What it is for"), table);
}

QWidget* coat(const RecipeVersion& version) {
  return section(SectionWords::tr("Coat"), new CoatStrip(layerPictures(version.coat, version.materials), metalWords(version)));
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
    if (step.optic) table->add({SectionWords::tr("Optic"), toQt(*step.optic)});
    if (step.before) table->add({SectionWords::tr("First, by hand"), toQt(*step.before)});
    for (const SettingLine& line : settingLines(step.settings, machineOf(detail.shown, step.machine))) table->add({line.name, line.value});
    if (step.until) table->add({SectionWords::tr("Until"), toQt(*step.until)});
    column->addWidget(table);
  }
  return section(SectionWords::tr("Settings, in the order they are dialled"), content);
}

QWidget* predicted(const RecipeVersion& version) {
  auto* content = new QWidget;
  content->setObjectName(QStringLiteral("recipePredicted"));
  auto* column = new QVBoxLayout(content);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  const std::vector<PredictionLine> lines = predictionLines(version);
  if (!lines.empty()) {
    auto* table = new Table({QString(), SectionWords::tr("predicted, 9 in 10 such jobs"), SectionWords::tr("measured")});
    for (const PredictionLine& line : lines) {
      const QString measured = line.outside.isEmpty() ? line.proven : SectionWords::tr("⚠ %1, %2").arg(line.proven, line.outside);
      table->add({line.name, line.predicted.isEmpty() ? SectionWords::tr("not known") : line.predicted,
                  line.proven.isEmpty() ? SectionWords::tr("not measured") : measured});
    }
    column->addWidget(table);
  }
  for (const std::string& fails : version.predicted.fails)
    column->addWidget(note({toQt(fails)}, Status::Fails, QStringLiteral("predictedFail")));
  column->addWidget(text(version.predicted.modelVersion.empty()
                             ? SectionWords::tr("Nothing was predicted when it was saved.")
                             : SectionWords::tr("Predicted with model version %1.").arg(toQt(version.predicted.modelVersion)),
                         QPalette::PlaceholderText));
  return section(SectionWords::tr("Predicted against proven"), content);
}

QWidget* trials(const RecipeVersion& version) {
  if (!version.proof) return section(SectionWords::tr("Proof"), text(SectionWords::tr("No trial was made yet.")));
  const Proof& proof = *version.proof;
  auto* table = new Table({});
  table->setObjectName(QStringLiteral("recipeProof"));
  if (isJudged(proof)) {
    table->add({SectionWords::tr("Judged"), SectionWords::tr("%1 by %2").arg(words::date(proof.date), toQt(proof.initials))});
  } else {
    table->add({SectionWords::tr("Judged"), SectionWords::tr("not yet: the trials wait for somebody's word")});
  }
  if (!proof.note.empty()) table->add({SectionWords::tr("Note"), toQt(proof.note)});
  for (const Trial& trial : proof.trials) {
    const QString by = trial.initials.empty() ? SectionWords::tr("not signed") : toQt(trial.initials);
    QStringList what{
        SectionWords::tr("%1: %2").arg(trial.where.empty() ? SectionWords::tr("place not noted") : toQt(trial.where), seenWords(trial))};
    if (const QString outcome = words::outcome(outcomeOf(trial)); outcome != seenWords(trial)) what.prepend(outcome);
    for (const auto& readings : byKind(trial.readings))
      what << SectionWords::tr("%1 %2").arg(words::readingKind(readings.front().kind), words::readings(readings));
    if (!trial.note.empty()) what << toQt(trial.note);
    table->add({SectionWords::tr("Trial %1, %2").arg(trial.date.empty() ? SectionWords::tr("not dated") : words::date(trial.date), by),
                what.join(QStringLiteral("; "))});
  }
  if (proof.trials.empty()) table->add({SectionWords::tr("Trials"), SectionWords::tr("none")});
  return section(SectionWords::tr("Proof"), table);
}

QWidget* nearness(const FoundRecipe& found) {
  QStringList sentences;
  if (found.parts.empty()) sentences << SectionWords::tr("The same metal, coat and machine as the open plan.");
  for (const DistancePart& part : found.parts) sentences << toQt(part.words);
  auto* table = new Table({});
  table->setObjectName(QStringLiteral("recipeNearness"));
  for (const QString& sentence : sentences) table->add({QStringLiteral("•"), sentence});
  return section(
      found.parts.empty() ? SectionWords::tr("As near as can be") : SectionWords::tr("What differs from the open part, most first"), table);
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
      lines << toQt(inWords(difference));
    } else {
      ++more;
    }
  }
  if (proof) lines << SectionWords::tr("the proof");
  if (more > 0) lines << SectionWords::tr("and %1 more").arg(more);
  if (lines.isEmpty()) return nullptr;
  return text(SectionWords::tr("Changed since version %1: %2.").arg(detail.shown.number - 1).arg(lines.join(QStringLiteral("; "))),
              QPalette::PlaceholderText);
}

}  // namespace bw::parts
