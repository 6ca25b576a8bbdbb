// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"

#include "core/job/hazards.h"
#include "core/text/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <sstream>

namespace bw {
namespace {

constexpr std::size_t pageWidth = 80;
constexpr std::size_t labelWidth = 24;

/// Letters as seen, not bytes.
std::size_t widthOf(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t taken = widthOf(text);
  return taken < width ? text + std::string(width - taken, ' ') : text;
}

/// Three significant digits without an exponent where a shop would not write one. Takes no regard to the locale.
std::string figure(double value) {
  if (value == 0 || !std::isfinite(value)) return value == 0 ? "0" : "not known";
  char text[48];
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  if (exponent < -4 || exponent > 6) return {text, std::to_chars(text, text + sizeof text, value, std::chars_format::scientific, 2).ptr};
  const double unit = std::pow(10.0, exponent - 2);
  const double rounded = std::round(value / unit) * unit;
  return {text, std::to_chars(text, text + sizeof text, rounded, std::chars_format::fixed, std::max(0, 2 - exponent)).ptr};
}

std::string quantity(const std::optional<double>& value, const char* unit, double perUnit = 1) {
  if (!value) return "not known";
  return figure(*value / perUnit) + (*unit ? ' ' + std::string(unit) : "");
}

std::string share(const std::optional<double>& value) { return value ? bw::text::percent(*value) : "not known"; }

std::string duration(const std::optional<double>& seconds) { return seconds ? bw::text::duration(*seconds) : "not known"; }

std::string temperature(const std::optional<double>& celsius) { return celsius ? bw::text::temperature(*celsius) : "not known"; }

const char* stateWord(Status status) {
  switch (status) {
    case Status::Meets: return "meets";
    case Status::Near: return "near limit";
    case Status::Fails: return "FAILS";
    case Status::NotKnown: break;
  }
  return "not known";
}

/// Lines of a page, wrapped between words.
class Page {
 public:
  void heading(const std::string& title) { m_text << '\n' << title << '\n'; }

  void paragraph(const std::string& text, const std::string& first = "", const std::string& next = "") {
    std::istringstream words(text);
    std::string line = first;
    std::string word;
    bool fresh = true;
    while (words >> word) {
      if (!fresh && widthOf(line) + 1 + widthOf(word) > pageWidth) {
        m_text << line << '\n';
        line = next;
        fresh = true;
      }
      line += (fresh ? "" : " ") + word;
      fresh = false;
    }
    if (!fresh) m_text << line << '\n';
  }

  void row(const std::string& label, const std::string& value) {
    const std::string indent(labelWidth + 2, ' ');
    if (widthOf(label) < labelWidth) return paragraph(value, padded("  " + label, labelWidth + 2), indent);
    paragraph(label, "  ", "  ");
    paragraph(value, indent, indent);
  }

  void bullet(const std::string& text) { paragraph(text, "  - ", "    "); }

  std::string text() const { return m_text.str(); }

 private:
  std::ostringstream m_text;
};

void verdict(Page& page, const std::vector<VerdictRow>& rows) {
  page.heading("Checks");
  for (const VerdictRow& row : rows) {
    page.paragraph(row.question + ' ' + row.message, padded("  " + std::string(stateWord(row.status)), 14), std::string(14, ' '));
    if (!row.remedy.empty()) page.paragraph("Try: " + row.remedy, std::string(14, ' '), std::string(14, ' '));
  }
}

void beam(Page& page, const BeamResult& beam) {
  page.heading("Beam at the part");
  page.row("mean power", quantity(beam.meanPower_W, "W"));
  page.row("peak power", quantity(beam.peakPower_W, "kW", 1e3));
  page.row("spot diameter (1/e²)", quantity(beam.spotDiameter_m, "µm", 1e-6));
  page.row("Rayleigh range", quantity(beam.rayleighRange_m, "mm", 1e-3));
  if (beam.pulseEnergy_J) page.row("pulse energy", quantity(beam.pulseEnergy_J, "mJ", 1e-3));
  if (beam.peakFluence_J_m2) page.row("peak fluence", quantity(beam.peakFluence_J_m2, "J/cm²", 1e4));
  page.row("peak irradiance", quantity(beam.peakIrradiance_W_m2, "MW/cm²", 1e10));
}

void overlap(Page& page, const OverlapResult& overlap) {
  page.heading("Lines and frames");
  if (overlap.pulseStep_m) page.row("pulse step", quantity(overlap.pulseStep_m, "µm", 1e-6) + ", overlap " + share(overlap.pulseOverlap));
  if (overlap.pulsesPerSpot) page.row("pulses per spot", quantity(overlap.pulsesPerSpot, ""));
  page.row("line spacing", quantity(overlap.lineSpacing_m, "µm", 1e-6) + ", overlap " + share(overlap.lineOverlap));
  page.row("frame period", quantity(overlap.framePeriod_s, "ms", 1e-3) + ", lit " + share(overlap.litFraction));
}

std::string stripeLine(const Stripe& stripe) {
  return "every " + quantity(stripe.period_m, "mm", 1e-3) + ", " + share(stripe.contrast) + " strong: " + stripe.cause;
}

void dose(Page& page, const std::optional<DoseResult>& dose) {
  page.heading("Energy on the part per pass (dose)");
  if (!dose) return page.bullet("the hand stands still: no steady dose");
  page.row("mean", quantity(dose->mean_J_m2, "J/cm²", 1e4));
  page.row("least to most", quantity(dose->min_J_m2, "", 1e4) + " to " + quantity(dose->max_J_m2, "J/cm²", 1e4));
  page.row("9 in 10 places", quantity(dose->p05_J_m2, "", 1e4) + " to " + quantity(dose->p95_J_m2, "J/cm²", 1e4));
  page.row("spread (sd / mean)", share(dose->cv));
  if (dose->edgeRatio) page.row("swath edge to middle", quantity(dose->edgeRatio, ""));
  page.row("ripple across swaths", share(dose->ripple));
  page.row("ripple along the travel", share(dose->rippleAlong));
  page.row("missed", share(dose->missedFraction));
  if (dose->stripeAcross) page.row("stripes across", stripeLine(*dose->stripeAcross));
  if (dose->stripeAlong) page.row("stripes along", stripeLine(*dose->stripeAlong));
  for (const TiltedDose& tilted : dose->tilted) {
    page.row(
        tilted.area + ", " + quantity(tilted.tilt_rad, "°", 0.017453292519943295),
        "peak " + share(tilted.peakShare) + " of a square face's, spread " + share(tilted.cv) + ", missed " + share(tilted.missedFraction));
  }
  if (!dose->outOfStep) return;
  const OutOfStep& chance = *dose->outOfStep;
  page.row("swaths out of step", "spread " + share(chance.cv.low) + " to " + share(chance.cv.high) + ", missed " +
                                     share(chance.missedFraction.low) + " to " + share(chance.missedFraction.high));
  page.row("swaths there and back", "spread " + share(chance.alternatingCv));
}

std::string layerLine(const LayerResult& layer) {
  std::string text = quantity(layer.thickness_m, "µm", 1e-6) + ", ";
  if (layer.kept) return text + "must stay; " + quantity(layer.removed_m, "µm", 1e-6) + " lost";
  text += quantity(layer.removed_m, "µm", 1e-6) + " removed; ";
  if (layer.passes) text += "clear after " + std::to_string(*layer.passes) + (*layer.passes == 1 ? " pass" : " passes");
  else text += "does not clear" + (layer.stallReason.empty() ? "" : ": " + layer.stallReason);
  if (layer.thresholdFluence_J_m2) text += "; threshold " + quantity(layer.thresholdFluence_J_m2, "J/cm²", 1e4);
  if (layer.clearsUpTo_rad) text += "; clears up to " + figure(*layer.clearsUpTo_rad * 180 / std::numbers::pi) + "° of tilt";
  return text;
}

/// The ends of a range, which may have none.
std::string ends(const Spread& spread, const char* unit, double factor = 1) {
  if (std::isinf(spread.low)) return "none: it never clears";
  const std::string low = quantity(spread.low, unit, factor);
  return std::isinf(spread.high) ? low + " or more" : low + " to " + quantity(spread.high, unit, factor);
}

std::string durationEnds(const Spread& spread) {
  if (std::isinf(spread.low)) return "none: it never clears";
  const std::string low = duration(spread.low);
  return std::isinf(spread.high) ? low + " or more" : low + " to " + duration(spread.high);
}

void ranges(Page& page, const Ranges& found) {
  page.heading("In 9 of 10 such jobs");
  page.row("passes needed", ends(found.passesNeeded, ""));
  page.row("never clears", share(found.neverShare));
  page.row("heat into the part", share(found.heatIntoPartFraction.low) + " to " + share(found.heatIntoPartFraction.high));
  if (found.back_C) page.row("back face", temperature(found.back_C->low) + " to " + temperature(found.back_C->high));
  if (found.etch_m) page.row("etch", ends(*found.etch_m, "µm", 1e-6));
  if (found.totalTime_s) page.row("time, passes needed", durationEnds(*found.totalTime_s));
  if (found.plannedTotalTime_s) page.row("time, passes planned", durationEnds(*found.plannedTotalTime_s));
  if (found.cost) page.row("cost, passes needed", ends(*found.cost, ""));
  if (found.plannedCost) page.row("cost, passes planned", ends(*found.plannedCost, ""));
  for (const Influence& influence : found.influences)
    page.row(influence.what, share(influence.share) + " of the spread; passes once known " + ends(influence.passesIfKnown, ""));
}

void removal(Page& page, const RemovalResult& removal) {
  page.heading("Removal");
  if (!removal.computed) return page.bullet("not known");
  page.row("passes needed", removal.passesNeeded ? std::to_string(*removal.passesNeeded) : "does not clear");
  if (removal.stillHand && removal.stillHand->first_s) {
    page.row("a still hand is through",
             "first after " + quantity(removal.stillHand->first_s, "s") +
                 (removal.stillHand->most_s ? ", over 95 % of the frame after " + quantity(removal.stillHand->most_s, "s") : ""));
  }
  page.row("cleared as planned", share(removal.clearedFraction));
  if (removal.rate_m2_s) page.row("rate", quantity(removal.rate_m2_s, "cm²/s", 1e-4));
  page.row("heat into the part", share(removal.heatIntoPartFraction));
  for (const LayerResult& layer : removal.layers) page.row(layer.name, layerLine(layer));
}

/// Beyond boiling no figure.
std::string reached(const ThermalResult& thermal, const std::optional<double>& temperature_C) {
  return thermal.boils(temperature_C) ? "boils (" + temperature(thermal.boiling_C) + ")" : temperature(temperature_C);
}

void limits(Page& page, const ThermalResult& thermal) {
  for (const LimitResult& limit : thermal.limits) {
    std::string text = reached(thermal, limit.predicted_C) + " of " + temperature(limit.limit_C);
    if (limit.predictedRange_C)
      text +=
          "; " + temperature(limit.predictedRange_C->low) + " to " + temperature(limit.predictedRange_C->high) + " in 9 of 10 such jobs";
    if (limit.margin) text += ", margin " + share(limit.margin);
    if (limit.reached_s) text += ", met after " + bw::text::duration(*limit.reached_s);
    if (limit.stillHand_s) text += ", hand may stop " + bw::text::duration(*limit.stillHand_s);
    if (limit.warnOnly) text += ", a warning only";
    if (!limit.source.empty()) text += " (" + limit.source + ")";
    page.row(limit.name, text);
  }
}

void heat(Page& page, const ThermalResult& thermal, const FinishResult& finish) {
  page.heading("Heat and finish");
  page.row("within a pulse (flash)",
           reached(thermal, thermal.flash_C) +
               (thermal.flashExcess_J_m2 ? ", with " + quantity(thermal.flashExcess_J_m2, "J/cm²", 1e4) + " more than that takes" : ""));
  page.row("between pulses (near)", reached(thermal, thermal.near_C));
  page.row("front face", reached(thermal, thermal.front_C));
  page.row("back face", reached(thermal, thermal.back_C));
  limits(page, thermal);
  if (thermal.flatness) {
    page.row("flatness index", quantity(thermal.warpIndex, "") + " (yield " + quantity(thermal.flatness->yield, "") + ", popping while hot " +
                                   quantity(thermal.flatness->oilCan, "") + ", bow left " + quantity(thermal.flatness->bow, "") + ")");
  }
  if (finish.melts) page.row("metal melts", *finish.melts ? "yes, " + quantity(finish.meltDepth_m, "µm deep", 1e-6) : "no");
  if (finish.etch_m) page.row("etch", quantity(finish.etch_m, "µm", 1e-6));
}

std::string otherWayLine(const OtherWay& way) {
  std::string text = duration(way.work_s) + " of work";
  if (way.wait_s > 0) text += " and " + duration(way.wait_s) + " of waiting";
  if (way.cost) text += ", cost " + figure(*way.cost);
  return text + "; " + way.drawback + " (common practice, no source)";
}

void job(Page& page, const JobResult& job) {
  page.heading("Work");
  page.row("area", quantity(job.area_m2, "cm²", 1e-4));
  page.row("beam time, as planned", duration(job.beamTime_s));
  page.row("total time, as planned", duration(job.totalTime_s));
  page.row("per A4 sheet", duration(job.secondsPerA4));
  page.row("energy from the supply", quantity(job.energy_J, "kWh", 3.6e6));
  if (job.cost) page.row("cost, as planned", quantity(job.cost, ""));
  for (const CostItem& item : job.costItems) page.row("  " + item.name, quantity(item.amount, ""));
  for (const OtherWay& way : job.otherWays) page.row(way.name, otherWayLine(way));
  if (!job.needed) return;
  page.row("beam time needed", duration(job.needed->beamTime_s));
  page.row("total time needed", duration(job.needed->totalTime_s));
  if (job.needed->cost) page.row("cost of what is needed", quantity(job.needed->cost, ""));
}

/// What is open first; what was settled with who says so.
void beforeBeam(Page& page, const std::vector<Precaution>& all) {
  page.heading("Before the beam is on: " + std::to_string(openCount(all)) + " open");
  for (const bool settled : {false, true}) {
    for (const Precaution& one : all) {
      if (one.cleared.has_value() != settled) continue;
      const std::string first = settled ? "  [x] " : one.stops ? "  [ ] STOP: " : "  [ ] ";
      const std::string by = settled ? " (" + one.cleared->by + ", " + one.cleared->date + ")" : "";
      const std::string note = settled && !one.cleared->note.empty() ? ": " + one.cleared->note : "";
      page.paragraph(one.what + by + note + (settled ? "" : ". " + one.todo), first, "      ");
    }
  }
}

void cautions(Page& page, const AirResult& air, const EyesResult& eyes) {
  page.heading("Cautions");
  for (const Hazard& hazard : air.hazards)
    if (hazard.harm == Harm::Fire) page.bullet(hazard.text);
  page.bullet(
      "Fire: know what lies behind the metal, keep a fire watch, never work on closed vessels; iron and aluminium dust never in "
      "one filter.");
  page.bullet("Eyes: hazard distance " + quantity(eyes.hazardDistance_m, "m") + ", diffuse reflection " +
              quantity(eyes.diffuseDistance_m, "m") + ". Bare metal returns a mirror beam: the diffuse distance alone does not protect. " +
              "Eyewear of optical density " + (eyes.opticalDensity ? figure(std::ceil(*eyes.opticalDensity)) : "not known") +
              " at the laser's wavelength for everyone in the room.");
  page.bullet("Lungs: coat that leaves as fume and dust " + quantity(air.removed_kg, "g", 1e-3) + ", while the beam is on " +
              quantity(air.fume_kg_s, "g/min", 1e-3 / 60) + ". Capture it at the source; test unknown old coats first.");
  for (const Hazard& hazard : air.hazards)
    if (hazard.harm != Harm::Fire) page.bullet(hazard.text);
  page.bullet("A prediction is no permission: local rules and the laser safety officer decide. Prove the settings on a patch first.");
}

}  // namespace

std::string assessmentTable(const Assessment& assessment) {
  Page page;
  page.paragraph("Plan \"" + assessment.plan + "\" on " + assessment.machine);
  page.paragraph(assessment.answer);
  beforeBeam(page, assessment.precautions);
  verdict(page, assessment.verdict);
  beam(page, assessment.beam);
  overlap(page, assessment.overlap);
  dose(page, assessment.dose);
  removal(page, assessment.removal);
  heat(page, assessment.thermal, assessment.finish);
  job(page, assessment.job);
  if (assessment.ranges) ranges(page, *assessment.ranges);
  if (!assessment.findOutNext.empty()) page.heading("Worth finding out next");
  for (const FindOutNext& next : assessment.findOutNext) page.bullet(next.what + ": " + next.how + " (" + next.narrows + ")");
  page.heading("What this rests on");
  page.bullet("model version " + std::string(modelVersion));
  for (const std::string& note : assessment.notes) page.bullet(note);
  cautions(page, assessment.air, assessment.eyes);
  return page.text();
}

}  // namespace bw
