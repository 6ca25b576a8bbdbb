// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/recipe_words.h"

#include "core/readings/reading_summary.h"
#include "ui/fields/quantity_text.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>

#include <array>

namespace bw::words {
namespace {

struct RecipeWords {
  Q_DECLARE_TR_FUNCTIONS(RecipeWords)
};

QString withoutBrackets(const std::string& name) { return QString::fromStdString(name).section(QStringLiteral(" ("), 0, 0); }

struct KeyEnd {
  const char* end;
  const char* unit;
};

constexpr std::array<KeyEnd, 9> keyEnds{{{"_J_cm2", "J/cm²"},
                                         {"_cm2_s", "cm²/s"},
                                         {"_um", "µm"},
                                         {"_mm", "mm"},
                                         {"_W", "W"},
                                         {"_C", "°C"},
                                         {"_percent", "%"},
                                         {"_min", "min"},
                                         {"_s", "s"}}};

const KeyEnd* endOf(const std::string& key) {
  for (const KeyEnd& end : keyEnds) {
    if (key.ends_with(end.end)) return &end;
  }
  return nullptr;
}

}  // namespace

QString outcome(TrialOutcome outcome) {
  switch (outcome) {
    case TrialOutcome::Failed:
      return RecipeWords::tr("failed");
    case TrialOutcome::Partly:
      return RecipeWords::tr("partly cleared");
    case TrialOutcome::Cleared:
      return RecipeWords::tr("cleared");
    case TrialOutcome::Unfinished:
      break;
  }
  return RecipeWords::tr("unfinished");
}

QString state(RecipeState state, bool stale) {
  switch (state) {
    case RecipeState::Proven:
      return stale ? RecipeWords::tr("proven, but stale") : RecipeWords::tr("proven");
    case RecipeState::Withdrawn:
      return RecipeWords::tr("withdrawn");
    case RecipeState::Draft:
      break;
  }
  return RecipeWords::tr("draft");
}

QString finish(Finish finish) {
  switch (finish) {
    case Finish::Untouched:
      return RecipeWords::tr("metal untouched");
    case Finish::LightEtch:
      return RecipeWords::tr("light etch allowed");
    case Finish::Any:
      break;
  }
  return RecipeWords::tr("any finish");
}

QString machineKind(MachineKind kind) { return kind == MachineKind::Pulsed ? RecipeWords::tr("pulsed") : RecipeWords::tr("continuous"); }

QString seen(Seen seen) {
  switch (seen) {
    case Seen::Cleared:
      return RecipeWords::tr("cleared");
    case Seen::Patchy:
      return RecipeWords::tr("patchy");
    case Seen::Not:
      return RecipeWords::tr("not cleared");
    case Seen::Residue:
      return RecipeWords::tr("residue");
    case Seen::Tint:
      return RecipeWords::tr("tint");
    case Seen::Stripes:
      break;
  }
  return RecipeWords::tr("stripes");
}

QString readable(const std::string& id) {
  QString text = QString::fromStdString(id);
  text.replace(QLatin1Char('-'), QLatin1Char(' ')).replace(QLatin1Char('_'), QLatin1Char(' '));
  return text;
}

QString substrate(const Library& materials, const std::string& id) {
  const Substrate* found = findSubstrate(materials, id);
  return found ? withoutBrackets(found->name) : readable(id);
}

QString coating(const Library& materials, const std::string& id) {
  const Coating* found = findCoating(materials, id);
  return found ? withoutBrackets(found->name) : readable(id);
}

QString date(const std::string& iso) {
  const QString text = QString::fromStdString(iso).left(10);
  const QDate date = QDate::fromString(text, Qt::ISODate);
  return date.isValid() ? date.toString(Qt::ISODate) : text;
}

QString unitOf(const std::string& key) {
  const KeyEnd* end = endOf(key);
  return end ? QString::fromUtf8(end->unit) : QString();
}

QString readingKind(const std::string& kind) {
  static const std::array<std::pair<const char*, const char*>, 11> known{
      {{"thickness_before_um", QT_TRANSLATE_NOOP("RecipeWords", "thickness before")},
       {"thickness_after_um", QT_TRANSLATE_NOOP("RecipeWords", "thickness after")},
       {"back_C", QT_TRANSLATE_NOOP("RecipeWords", "back face, highest")},
       {"front_C", QT_TRANSLATE_NOOP("RecipeWords", "front face, highest")},
       {"face_C", QT_TRANSLATE_NOOP("RecipeWords", "front face, highest")},
       {"passes", QT_TRANSLATE_NOOP("RecipeWords", "passes to clear")},
       {"passes_to_clear", QT_TRANSLATE_NOOP("RecipeWords", "passes to clear")},
       {"spot_width_um", QT_TRANSLATE_NOOP("RecipeWords", "width of a spot")},
       {"crater_depth_um", QT_TRANSLATE_NOOP("RecipeWords", "depth of a crater")},
       {"etch_um", QT_TRANSLATE_NOOP("RecipeWords", "etch of the metal")},
       {"time_s", QT_TRANSLATE_NOOP("RecipeWords", "time")}}};
  for (const auto& [key, text] : known) {
    if (kind == key) return RecipeWords::tr(text);
  }
  const KeyEnd* end = endOf(kind);
  return readable(end ? kind.substr(0, kind.size() - std::string_view(end->end).size()) : kind);
}

QString reading(const Reading& reading) {
  const auto asMeasured = [](double value) { return QLocale().toString(value, 'g', 6); };
  QString text = asMeasured(reading.value);
  if (reading.uncertainty) text += noBreak + QStringLiteral("±") + noBreak + asMeasured(*reading.uncertainty);
  const QString unit = unitOf(reading.kind);
  if (!unit.isEmpty()) text += noBreak + unit;
  return text;
}

QString readings(const std::vector<Reading>& sameKind) {
  constexpr std::size_t most = 3;
  QStringList texts;
  if (sameKind.size() <= most) {
    for (const Reading& one : sameKind) texts << reading(one);
    return texts.join(QStringLiteral("; "));
  }
  for (const ReadingSummary& summary : summariesOf(sameKind)) {
    const QString unit = unitOf(summary.kind);
    const QString mean = writeQuantity(Range::exact(summary.mean), quantities::count) + (unit.isEmpty() ? unit : noBreak + unit);
    texts << RecipeWords::tr("%1 readings, mean %2, spread %3").arg(summary.count).arg(mean, format::number(summary.deviation.value_or(0)));
  }
  return texts.join(QStringLiteral("; "));
}

QString facetMachineKind(const std::string& word) { return word == "pulsed" ? RecipeWords::tr("pulsed") : RecipeWords::tr("continuous"); }

QString facetFinish(const std::string& word) {
  if (word == "untouched") return finish(Finish::Untouched);
  return finish(word == "light-etch" ? Finish::LightEtch : Finish::Any);
}

}  // namespace bw::words
