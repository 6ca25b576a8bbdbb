// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/field_words.h"

#include "core/library/differences.h"

#include <QCoreApplication>
#include <QHash>
#include <QSet>

#include <algorithm>

namespace bw {
namespace {

constexpr const char* context = "FieldWords";

struct Entry {
  const char* key;
  const char* name;
  const char* tip;
};

// By the last part of the key; names are those of the shop, the science's word stands in the tip.
constexpr Entry entries[] = {
    {"name", QT_TRANSLATE_NOOP("FieldWords", "Name"), QT_TRANSLATE_NOOP("FieldWords", "As the shop says it.")},
    {"note", QT_TRANSLATE_NOOP("FieldWords", "Note"), QT_TRANSLATE_NOOP("FieldWords", "Whatever the next person should know.")},
    {"colour", QT_TRANSLATE_NOOP("FieldWords", "Colour"), QT_TRANSLATE_NOOP("FieldWords", "Of the drawing, as #rrggbb.")},
    {"unknown", QT_TRANSLATE_NOOP("FieldWords", "Stands for \"don't know\""),
     QT_TRANSLATE_NOOP("FieldWords", "Offered first where nobody knows what is on the part.")},
    {"behaviour", QT_TRANSLATE_NOOP("FieldWords", "How it leaves"),
     QT_TRANSLATE_NOOP("FieldWords", "What the coat does when it has taken up enough energy.")},
    {"absorptance", QT_TRANSLATE_NOOP("FieldWords", "Light taken up"), QT_TRANSLATE_NOOP("FieldWords", "Absorptance at 1064 nm.")},
    {"optical_depth_um", QT_TRANSLATE_NOOP("FieldWords", "Depth the light reaches"),
     QT_TRANSLATE_NOOP("FieldWords", "Where 1/e of it is left (optical depth).")},
    {"removal_enthalpy_J_mm3", QT_TRANSLATE_NOOP("FieldWords", "Energy to remove it"),
     QT_TRANSLATE_NOOP("FieldWords", "What a volume must hold to leave (removal enthalpy).")},
    {"removal_temperature_C", QT_TRANSLATE_NOOP("FieldWords", "Removal temperature"),
     QT_TRANSLATE_NOOP("FieldWords", "From which on it decomposes.")},
    {"ejection_time_ns", QT_TRANSLATE_NOOP("FieldWords", "Time to leave"),
     QT_TRANSLATE_NOOP("FieldWords", "In which matter at removal leaves the surface (ejection time).")},
    {"conductivity_W_mK", QT_TRANSLATE_NOOP("FieldWords", "Heat conduction"),
     QT_TRANSLATE_NOOP("FieldWords", "Thermal conductivity at room temperature.")},
    {"density_kg_m3", QT_TRANSLATE_NOOP("FieldWords", "Density"), ""},
    {"specific_heat_J_kgK", QT_TRANSLATE_NOOP("FieldWords", "Specific heat"),
     QT_TRANSLATE_NOOP("FieldWords", "Energy to warm a kilogram by one degree.")},
    {"typical_thickness_um", QT_TRANSLATE_NOOP("FieldWords", "Usual thickness"),
     QT_TRANSLATE_NOOP("FieldWords", "Taken where nobody measured.")},
    {"residue_share", QT_TRANSLATE_NOOP("FieldWords", "Residue when it softens"),
     QT_TRANSLATE_NOOP("FieldWords", "Share that stays behind.")},
    {"absorptance_after_heating", QT_TRANSLATE_NOOP("FieldWords", "Light taken up once scorched"),
     QT_TRANSLATE_NOOP("FieldWords", "Absorptance after the coat has browned.")},
    {"scattering_1_mm", QT_TRANSLATE_NOOP("FieldWords", "Scattering in the film"),
     QT_TRANSLATE_NOOP("FieldWords", "Kubelka-Munk S of pale and clear coats.")},
    {"absorption_1_mm", QT_TRANSLATE_NOOP("FieldWords", "Absorption in the film"),
     QT_TRANSLATE_NOOP("FieldWords", "Kubelka-Munk K of pale and clear coats.")},
    {"family", QT_TRANSLATE_NOOP("FieldWords", "Family"), QT_TRANSLATE_NOOP("FieldWords", "What its dust is, for filters and fires.")},
    {"curve", QT_TRANSLATE_NOOP("FieldWords", "Change with heat"),
     QT_TRANSLATE_NOOP("FieldWords", "Curve of conduction and specific heat against temperature.")},
    {"refractive_index", QT_TRANSLATE_NOOP("FieldWords", "Refractive index n"),
     QT_TRANSLATE_NOOP("FieldWords", "Of the polished metal at 1064 nm.")},
    {"extinction_coefficient", QT_TRANSLATE_NOOP("FieldWords", "Extinction k"),
     QT_TRANSLATE_NOOP("FieldWords", "Of the polished metal at 1064 nm.")},
    {"melting_C", QT_TRANSLATE_NOOP("FieldWords", "Melts at"), ""},
    {"boiling_C", QT_TRANSLATE_NOOP("FieldWords", "Boils at"), ""},
    {"vaporisation_J_mm3", QT_TRANSLATE_NOOP("FieldWords", "Energy to boil it away"),
     QT_TRANSLATE_NOOP("FieldWords", "Heating, melting and boiling of a volume.")},
    {"expansion_um_mK", QT_TRANSLATE_NOOP("FieldWords", "Heat expansion"),
     QT_TRANSLATE_NOOP("FieldWords", "Growth of a length for one degree.")},
    {"youngs_modulus_GPa", QT_TRANSLATE_NOOP("FieldWords", "Stiffness"), QT_TRANSLATE_NOOP("FieldWords", "Young's modulus.")},
    {"poisson_ratio", QT_TRANSLATE_NOOP("FieldWords", "Poisson's ratio"), QT_TRANSLATE_NOOP("FieldWords", "Narrowing over stretching.")},
    {"yield_MPa", QT_TRANSLATE_NOOP("FieldWords", "Yield strength"), QT_TRANSLATE_NOOP("FieldWords", "Stress from which it stays bent.")},
    {"tint_C", QT_TRANSLATE_NOOP("FieldWords", "First tint at"), QT_TRANSLATE_NOOP("FieldWords", "First straw colour after ten minutes.")},
    {"hardening_C", QT_TRANSLATE_NOOP("FieldWords", "Hardens above"), QT_TRANSLATE_NOOP("FieldWords", "Near heat that hardens the skin.")},
    {"temper_C", QT_TRANSLATE_NOOP("FieldWords", "Loses temper at"), QT_TRANSLATE_NOOP("FieldWords", "Where strength is lost.")},
    {"plating_melts_C", QT_TRANSLATE_NOOP("FieldWords", "Plating melts at"), QT_TRANSLATE_NOOP("FieldWords", "Zinc on galvanised steel.")},
    {"part_boils_C", QT_TRANSLATE_NOOP("FieldWords", "Part of it boils out at"),
     QT_TRANSLATE_NOOP("FieldWords", "Zinc out of brass: a limit of near heat.")},
    {"melts_C", QT_TRANSLATE_NOOP("FieldWords", "Melts at"),
     QT_TRANSLATE_NOOP("FieldWords", "Of a metal coating: the limit where the layer must stay.")},
    {"kind", QT_TRANSLATE_NOOP("FieldWords", "Kind"), QT_TRANSLATE_NOOP("FieldWords", "Pulsed or continuous.")},
    {"wavelength_nm", QT_TRANSLATE_NOOP("FieldWords", "Wavelength"), ""},
    {"rated_power_W", QT_TRANSLATE_NOOP("FieldWords", "Rated power"),
     QT_TRANSLATE_NOOP("FieldWords", "Mean power at full setting, as its plate says.")},
    {"M2", QT_TRANSLATE_NOOP("FieldWords", "Beam quality M²"), QT_TRANSLATE_NOOP("FieldWords", "1 is the best any beam can have.")},
    {"beam_profile", QT_TRANSLATE_NOOP("FieldWords", "Shape of the spot"), ""},
    {"spot_diameter_um", QT_TRANSLATE_NOOP("FieldWords", "Spot diameter"), QT_TRANSLATE_NOOP("FieldWords", "1/e² at focus.")},
    {"repetition_rate_kHz", QT_TRANSLATE_NOOP("FieldWords", "Repetition rate"), QT_TRANSLATE_NOOP("FieldWords", "Lowest and highest.")},
    {"pulse_durations_ns", QT_TRANSLATE_NOOP("FieldWords", "Pulse durations"),
     QT_TRANSLATE_NOOP("FieldWords", "All it offers, shortest first.")},
    {"max_pulse_energy_mJ", QT_TRANSLATE_NOOP("FieldWords", "Most energy in a pulse"),
     QT_TRANSLATE_NOOP("FieldWords", "One for all durations, or one beside each.")},
    {"max_peak_power_kW", QT_TRANSLATE_NOOP("FieldWords", "Most peak power"), ""},
    {"gate_kHz", QT_TRANSLATE_NOOP("FieldWords", "Gate"), QT_TRANSLATE_NOOP("FieldWords", "Rate at which a continuous beam is switched.")},
    {"axes", QT_TRANSLATE_NOOP("FieldWords", "Axes"), QT_TRANSLATE_NOOP("FieldWords", "1 draws a line, 2 a frame.")},
    {"max_width_mm", QT_TRANSLATE_NOOP("FieldWords", "Greatest width"), ""},
    {"max_height_mm", QT_TRANSLATE_NOOP("FieldWords", "Greatest height"), ""},
    {"max_speed_mm_s", QT_TRANSLATE_NOOP("FieldWords", "Greatest scan speed"), ""},
    {"turnaround_us", QT_TRANSLATE_NOOP("FieldWords", "Time to turn"),
     QT_TRANSLATE_NOOP("FieldWords", "To reverse at full scan speed (turnaround).")},
    {"min_ambient_C", QT_TRANSLATE_NOOP("FieldWords", "Coldest room"),
     QT_TRANSLATE_NOOP("FieldWords", "Air temperature from which on it may run.")},
    {"supply_power_kW", QT_TRANSLATE_NOOP("FieldWords", "Draw from the mains"), ""},
    {"extra_draw_kW", QT_TRANSLATE_NOOP("FieldWords", "Draw of extraction and chiller"), ""},
    {"hourly_cost", QT_TRANSLATE_NOOP("FieldWords", "Cost an hour"), QT_TRANSLATE_NOOP("FieldWords", "In the shop's currency.")},
    {"warm_up_min", QT_TRANSLATE_NOOP("FieldWords", "Warm-up"), ""},
    {"divergence_mrad", QT_TRANSLATE_NOOP("FieldWords", "Divergence"),
     QT_TRANSLATE_NOOP("FieldWords", "Full 1/e² angle behind the focus.")},
    {"exit_beam_diameter_mm", QT_TRANSLATE_NOOP("FieldWords", "Beam where it leaves"),
     QT_TRANSLATE_NOOP("FieldWords", "Diameter at the head's window.")},
    {"delivered_power_W", QT_TRANSLATE_NOOP("FieldWords", "Delivered power"),
     QT_TRANSLATE_NOOP("FieldWords", "As last measured at the part.")},
    {"checked_on", QT_TRANSLATE_NOOP("FieldWords", "Checked on"), QT_TRANSLATE_NOOP("FieldWords", "Year-month-day.")},
    {"cover_glass_h", QT_TRANSLATE_NOOP("FieldWords", "Beam on the cover glass"),
     QT_TRANSLATE_NOOP("FieldWords", "Hours since it was put in.")},
    {"cover_glass_since", QT_TRANSLATE_NOOP("FieldWords", "Cover glass put in"), QT_TRANSLATE_NOOP("FieldWords", "Year-month-day.")},
    {"id", QT_TRANSLATE_NOOP("FieldWords", "Called"), QT_TRANSLATE_NOOP("FieldWords", "Plans name the optic by this.")},
    {"focal_length_mm", QT_TRANSLATE_NOOP("FieldWords", "Focal length"), ""},
    {"stand_off_mm", QT_TRANSLATE_NOOP("FieldWords", "Stand-off"), QT_TRANSLATE_NOOP("FieldWords", "From the tip to the part in focus.")},
    {"tip_width_mm", QT_TRANSLATE_NOOP("FieldWords", "Width of the tip"), ""},
    {"what", QT_TRANSLATE_NOOP("FieldWords", "What"), ""},
    {"count", QT_TRANSLATE_NOOP("FieldWords", "How many"), ""},
    {"date", QT_TRANSLATE_NOOP("FieldWords", "Date"), QT_TRANSLATE_NOOP("FieldWords", "Year-month-day.")},
    {"initials", QT_TRANSLATE_NOOP("FieldWords", "Initials"), QT_TRANSLATE_NOOP("FieldWords", "Whose hand it was.")},
};

QString translated(const char* text) { return QCoreApplication::translate(context, text); }

const Entry* entryOf(const QString& part) {
  const auto found = std::ranges::find_if(entries, [&](const Entry& entry) { return part == QLatin1String(entry.key); });
  return found == std::end(entries) ? nullptr : found;
}

QString numbered(const QString& key, const char* word) { return translated(word).arg(key.section('.', -2, -2)); }

}  // namespace

FieldWords wordsOf(const EntryField& field) {
  const QString key = QString::fromStdString(field.key);
  if (key.startsWith(QLatin1String("components."))) {
    const QString what = key.section('.', -1);
    return {what == QLatin1String("pvc") || what == QLatin1String("pcb") ? what.toUpper() : what.left(1).toUpper() + what.mid(1),
            translated(QT_TRANSLATE_NOOP("FieldWords", "Empty: not looked into."))};
  }
  if (const Entry* entry = entryOf(key.section('.', -1)))
    return {translated(entry->name), *entry->tip ? translated(entry->tip) : QString()};
  return {QString::fromStdString(wordsOfKey(field.key).words), {}};
}

QString placeWords(const std::string& key) {
  QStringList words;
  for (const QString& part : QString::fromStdString(key).split('.')) {
    if (part == QLatin1String("value")) continue;
    const Entry* entry = entryOf(part);
    words << (entry ? translated(entry->name) : QString::fromStdString(wordsOfKey(part.toStdString()).words));
  }
  return words.join(QLatin1String(", "));
}

FieldSection sectionOf(const EntryField& field) {
  const QString key = QString::fromStdString(field.key);
  static const QSet<QString> pulses{"repetition_rate_kHz", "pulse_durations_ns", "max_pulse_energy_mJ", "max_peak_power_kW", "gate_kHz"};
  static const QSet<QString> costs{"min_ambient_C", "supply_power_kW", "extra_draw_kW", "hourly_cost", "warm_up_min"};
  static const QSet<QString> upkeep{"delivered_power_W", "checked_on", "cover_glass_h", "cover_glass_since"};
  const QString last = key.section('.', -1);
  const auto number = [&] { return key.section('.', -2, -2).toInt(); };
  if (key.startsWith(QLatin1String("machine.optics.")))
    return {1000 + number(), numbered(key, QT_TRANSLATE_NOOP("FieldWords", "Optic %1"))};
  if (key.startsWith(QLatin1String("pieces."))) return {2000 + number(), numbered(key, QT_TRANSLATE_NOOP("FieldWords", "Tip or piece %1"))};
  if (key.startsWith(QLatin1String("checks."))) return {3000 + number(), numbered(key, QT_TRANSLATE_NOOP("FieldWords", "Check %1"))};
  if (key.startsWith(QLatin1String("machine.scan."))) return {30, translated(QT_TRANSLATE_NOOP("FieldWords", "Scan head"))};
  if (key.startsWith(QLatin1String("components."))) return {40, translated(QT_TRANSLATE_NOOP("FieldWords", "What it may hold"))};
  if (field.shape == EntryField::Shape::Range)
    return {10, translated(QT_TRANSLATE_NOOP("FieldWords", "Values: nine in ten real ones lie between low and high"))};
  if (pulses.contains(last)) return {20, translated(QT_TRANSLATE_NOOP("FieldWords", "Pulses"))};
  if (costs.contains(last)) return {60, translated(QT_TRANSLATE_NOOP("FieldWords", "Costs and surroundings"))};
  if (upkeep.contains(last)) return {50, translated(QT_TRANSLATE_NOOP("FieldWords", "Upkeep"))};
  if (key.startsWith(QLatin1String("machine.")) && last != QLatin1String("name"))
    return {10, translated(QT_TRANSLATE_NOOP("FieldWords", "Beam"))};
  return {0, translated(QT_TRANSLATE_NOOP("FieldWords", "About it"))};
}

QString unitOf(const EntryField& field) {
  if (!field.unit.empty()) return QString::fromStdString(field.unit);
  if (field.shape == EntryField::Shape::Range && field.accepted.ends_with("to 1"))
    return translated(QT_TRANSLATE_NOOP("FieldWords", "of 1"));
  return field.shape == EntryField::Shape::Range || field.shape == EntryField::Shape::Number ? QStringLiteral("–") : QString();
}

QString sayWord(const std::string& word) {
  if (word.empty()) return translated(QT_TRANSLATE_NOOP("FieldWords", "not stated"));
  return QString::fromStdString(word).replace('-', ' ');
}

}  // namespace bw
