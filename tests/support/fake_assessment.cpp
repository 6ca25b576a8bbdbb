// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/fake_assessment.h"

#include "tests/support/fake_dose.h"
#include "tests/support/fake_heat.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw::fake {

namespace {

constexpr double um = 1e-6;
constexpr double mm = 1e-3;
constexpr int shownPasses = 14;
constexpr double turnaround_s = 500e-6;

Layer layer(const char* name, const char* coating, double thickness_um, const char* colour, Behaviour behaviour) {
  Layer made;
  made.name = name;
  made.coating = coating;
  made.thickness_m = Range{0.8, 1, 1.3} * (thickness_um * um);
  made.colour = colour;
  made.behaviour = behaviour;
  made.knownFrom = KnownFrom::Typical;
  return made;
}

Machine benchMachine() {
  Machine made;
  made.id = "bench-300";
  made.name = "300 W pulsed, bench head";
  made.ratedPower_W = 300;
  made.M2 = 1.8;
  made.spotDiameter_m = 120 * um;
  made.repetitionRate_Hz = {10e3, 800e3};
  made.pulseDurations_s = {45e-9, 90e-9, 180e-9, 270e-9};
  made.maxPulseEnergy_J = {2e-3};
  made.scan = {2, 80 * mm, 50 * mm, 15, turnaround_s, {}};
  return made;
}

Settings firstSettings() {
  Settings made;
  made.powerFraction = 0.85;
  made.repetitionRate_Hz = 240e3;
  made.pulseDuration_s = 180e-9;
  made.width_m = 32 * mm;
  made.height_m = 14 * mm;
  made.scanSpeed_m_s = 9;
  made.lineSpacing_m = 0.16 * mm;
  made.travelSpeed_m_s = 16 * mm;
  made.stepOver_m = 35 * mm;
  made.passes = 4;
  return made;
}

Settings mendedSettings() {
  Settings made = firstSettings();
  made.beamOffInTurns = true;
  made.lineSpacing_m = 0.12 * mm;
  made.travelSpeed_m_s = 9 * mm;
  made.stepOver_m = 31.5 * mm;
  made.passes = 10;
  made.pause_s = 90;
  return made;
}

BeamResult beam() {
  BeamResult made;
  made.pulseEnergy_J = 1.06e-3;
  made.meanPower_W = 255;
  made.peakPower_W = 5900;
  made.spotDiameter_m = 120 * um;
  made.rayleighRange_m = 5.9 * mm;
  made.peakFluence_J_m2 = 18.8e4;
  made.peakIrradiance_W_m2 = 1.04e12;
  return made;
}

OverlapResult overlap(const Settings& settings) {
  OverlapResult made;
  made.pulseStep_m = 37.5 * um;
  made.pulseOverlap = 0.69;
  made.pulsesPerSpot = 3.2;
  made.lineSpacing_m = settings.lineSpacing_m;
  made.lineOverlap = 1 - settings.lineSpacing_m / (120 * um);
  const double line_s = settings.width_m / settings.scanSpeed_m_s;
  made.framePeriod_s = (settings.height_m / settings.lineSpacing_m + 1) * (line_s + turnaround_s);
  made.litFraction = settings.beamOffInTurns ? line_s / (line_s + turnaround_s) : 1;
  return made;
}

std::vector<PathPoint> path(const Settings& settings) {
  std::vector<PathPoint> points;
  const double half = settings.width_m / 2, overshoot = settings.scanSpeed_m_s * turnaround_s / 4;
  constexpr int drawn = 30;
  const double spacing = settings.height_m / (drawn - 1);
  for (int line = 0; line < drawn; ++line) {
    const double side = line % 2 == 0 ? 1 : -1, y = line * spacing;
    points.push_back({-side * half, y, true});
    points.push_back({side * half, y, !settings.beamOffInTurns});
    for (const double part : {0.25, 0.5, 0.75}) {
      points.push_back({side * (half + overshoot * 4 * part * (1 - part)), y + part * spacing, !settings.beamOffInTurns});
    }
  }
  const double lineTime_s = settings.width_m / settings.scanSpeed_m_s;
  double now_s = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    points[i].time_s = now_s;
    now_s += i % 5 == 0 ? lineTime_s : turnaround_s / 4;
  }
  return points;
}

/// Depth after each pass: a speed for each layer, less in the pale ones, proportional to dose; below a floor of dose nothing leaves.
std::vector<double> depthCurve(double dose, const std::vector<LayerResult>& layers, double floorOfPale) {
  static constexpr double um_per_pass[] = {62, 27, 46, 25, 52};
  std::vector<double> depth{0};
  double gone = 0;
  for (int pass = 1; pass <= shownPasses; ++pass) {
    double left = 1, bottom = 0;
    for (std::size_t i = 0; i < layers.size() && left > 0; ++i) {
      bottom += layers[i].thickness_m;
      if (gone >= bottom) continue;
      const bool pale = i == 1 || i == 3;
      const double pace = std::max(0.0, dose - (pale ? floorOfPale : 0.1)) * um_per_pass[i] * um;
      const double take = std::min(bottom - gone, pace * left);
      left = pace > 0 && take < pace * left ? left - take / pace : 0;
      gone += take;
    }
    depth.push_back(gone);
  }
  return depth;
}

std::vector<PlaceHistory> places(const DoseMap& map, const DoseResult& dose, const std::vector<LayerResult>& layers, double floorOfPale) {
  std::vector<std::size_t> cells;
  for (std::size_t i = 0; i < map.dose_J_m2.size(); i += 97) cells.push_back(i);
  std::sort(cells.begin(), cells.end(), [&map](std::size_t a, std::size_t b) { return map.dose_J_m2[a] < map.dose_J_m2[b]; });
  constexpr int classes = 16;
  double total_m = 0;
  for (const LayerResult& layer : layers) total_m += layer.thickness_m;
  std::vector<PlaceHistory> made;
  for (int i = 0; i < classes; ++i) {
    const std::size_t cell = cells[static_cast<std::size_t>((i + 0.5) / classes * static_cast<double>(cells.size()))];
    PlaceHistory place;
    place.share = 1.0 / classes;
    place.dose_J_m2 = static_cast<double>(map.dose_J_m2[cell]);
    place.depth_m = depthCurve(place.dose_J_m2 / dose.mean_J_m2, layers, floorOfPale);
    const auto clear = std::find_if(place.depth_m.begin(), place.depth_m.end(), [=](double depth) { return depth >= total_m - 2 * um; });
    if (clear != place.depth_m.end()) place.passesToClear = static_cast<int>(clear - place.depth_m.begin());
    made.push_back(std::move(place));
  }
  return made;
}

LayerResult layerResult(const char* name, double thickness_um, double threshold_J_m2) {
  LayerResult made;
  made.name = name;
  made.thickness_m = thickness_um * um;
  made.thresholdFluence_J_m2 = threshold_J_m2;
  return made;
}

RemovalResult removal(const DoseMap& map, const DoseResult& dose, int passes, bool stalls) {
  RemovalResult made;
  made.computed = true;
  made.layers = {layerResult("maroon", 45, 9.1e3), layerResult("cream", 60, 21e3), layerResult("grey", 40, 11e3),
                 layerResult("white", 50, 24e3), layerResult("red oxide primer", 35, 8.2e3)};
  made.places = places(map, dose, made.layers, stalls ? 0.45 : 0.1);
  double gone = 0, cleared = 0;
  for (const PlaceHistory& place : made.places) {
    gone += place.share * place.depth_m[static_cast<std::size_t>(passes)];
    if (place.passesToClear && *place.passesToClear <= passes) cleared += place.share;
  }
  for (LayerResult& layer : made.layers) {
    layer.removed_m = std::clamp(gone, 0.0, layer.thickness_m);
    gone -= layer.removed_m;
  }
  if (stalls) {
    made.layers[1].stallReason = "most of the light goes back out of the cream paint; where dose is low it never gets hot enough to leave";
  }
  made.layers[0].passes = 2;
  if (!stalls) made.passesNeeded = 10;
  made.clearedFraction = cleared;
  made.rate_m2_s = 0.9e-4;
  made.heatIntoPartFraction = 0.56;
  return made;
}

/// Peaks as the swath goes by, on top of a slow rise of the whole panel.
HeatTrace trace(int passes, double passTime_s, double pause_s, double peak_K, double rise_K) {
  HeatTrace made;
  std::vector<double> times;
  for (int pass = 0; pass < passes; ++pass) {
    constexpr int points = 120;
    const double begin_s = pass * (passTime_s + pause_s), first_s = pass == 0 ? 0.02 : 0.2;
    for (int i = 0; i < points; ++i)
      times.push_back(begin_s + first_s * std::pow((passTime_s + pause_s) * 0.999 / first_s, i / (points - 1.0)));
  }
  for (const double t : times) {
    double front = 20, back = 20;
    for (int pass = 0; pass < passes; ++pass) {
      const double since = t - pass * (passTime_s + pause_s) - 1.2;
      const double warm = since > 0 ? rise_K * (1 - std::exp(-since / passTime_s)) * std::exp(-since / 900) : 0;
      const double spread = since > 0 ? peak_K / std::sqrt(1 + since / 4) * std::exp(-since / 150) : peak_K * std::exp(since / 0.35);
      front += warm + spread * (since > 0 && since < 8 ? 1 + 0.22 * std::exp(-since / 0.8) : 1);
      back += warm + spread * 0.93;
    }
    made.time_s.push_back(t);
    made.front_C.push_back(front);
    made.back_C.push_back(back);
  }
  for (int pass = 0; pass < passes; ++pass) made.passStart_s.push_back(pass * (passTime_s + pause_s));
  return made;
}

LimitResult limit(const char* name, const char* where, double predicted_C, double limit_C, const char* source, bool warnOnly) {
  return {name, where, predicted_C, limit_C, (limit_C - predicted_C) / (limit_C - 20), source, warnOnly};
}

ThermalResult thermal(int passes, double passTime_s, double pause_s, double peak_K, double rise_K) {
  ThermalResult made;
  made.trace = made.backTrace = trace(passes, passTime_s, pause_s, peak_K, rise_K);
  made.front_C = *std::max_element(made.trace.front_C.begin(), made.trace.front_C.end());
  made.back_C = *std::max_element(made.trace.back_C.begin(), made.trace.back_C.end());
  made.frontStripping_C = *made.front_C - 14;
  made.frontBare_C = made.front_C;
  made.backStripping_C = *made.back_C - 13;
  made.backBare_C = made.back_C;
  made.near_C = *made.front_C + 38;
  made.flash_C = 1580;
  made.limits = {limit("paint behind", "back face", *made.back_C, 150, "typical for alkyd paint, common practice, no source", false),
                 limit("first straw tint", "front face", *made.front_C, 260, "heat-tint colours of steel, time counted", false),
                 limit("touch", "front face", *made.front_C, 65, "ISO 13732-1, bare metal, a short touch", true)};
  made.warpIndex = 0.7;
  fillHeat(made);
  made.worstMargin = made.limits[0].margin;
  return made;
}

JobResult job(double totalTime_s) {
  JobResult made;
  made.area_m2 = 0.228;
  made.totalTime_s = totalTime_s;
  made.beamTime_s = totalTime_s * 0.62;
  made.energy_J = totalTime_s * 900;
  made.costItems = {{"work", totalTime_s / 3600 * 42}, {"machine", totalTime_s / 3600 * 18}, {"energy", 0.6}, {"filters and waste", 6.5}};
  made.cost = 0;
  for (const CostItem& item : made.costItems) *made.cost += item.amount;
  made.secondsPerA4 = totalTime_s / made.area_m2 * 0.0624;
  return made;
}

std::vector<Working> workings() {
  return {{"dose.mean_J_cm2",
           "Mean dose",
           "mean power × lit share ÷ (travel × step-over)",
           {"mean power 255 W (yours)", "lit share 1.0, beam on in the turns", "travel 16 mm/s (yours)", "step-over 35 mm (yours)"},
           "energy balance of an endless area"},
          {"temperature",
           "Back face",
           "warmth of the whole panel + what the last lines build up at the back",
           {"steel 1.2 mm (measured)", "56 % of the beam stays as heat", "start 20 °C", "no wait between passes"},
           "pulses as instantaneous Gaussians with images; plate cooled on both faces"},
          {"job.total_time_s",
           "Time",
           "beam time ÷ share of the time the beam is on + waits + setting up",
           {"beam time 40 min", "beam on 70 % of the time (common practice, no source)", "setting up 10 min (typical)"},
           "common practice, no source"},
          {"job.cost",
           "Price",
           "time × hourly rate + machine + energy + consumables and waste",
           {"42 an hour (yours)", "machine 18 an hour (typical)", "filters and waste 6.50 (typical)"},
           "your own rates"},
          {"removal.passes_needed",
           "Passes",
           "smallest number that leaves 99 % of the repeat cell bare",
           {"coat 230 µm (typical)", "dose of one pass as in the map"},
           "ledger of pulses, one depth for each class of place"}};
}

std::vector<VerdictRow> failingVerdict() {
  return {{"comes_off", "Comes off?", Status::Fails,
           "Nothing is bare after 4 passes. The cream layer stalls where dose is low: it sends most of the light back.",
           "Narrow the step-over so that no strip is left out."},
          {"even", "Even?", Status::Fails,
           "The swath's edges get 1.3 times the dose of its middle and a strip of 3 % is missed; stripes will show.",
           "Switch the beam off in the turns."},
          {"temperature", "Cool enough?", Status::Near, "Back face 139 °C of 150 °C (paint behind, typical).", "Wait between passes."},
          {"flatness", "Stays flat?", Status::Near, "The panel may oil-can while hot: index 0.7 of 1. A screening figure only.", ""},
          {"finish", "Finish?", Status::Meets, "Etches about 2 µm of 10 µm allowed; melts 1 µm deep for an instant.", ""},
          {"machine_able", "Machine able?", Status::Meets, "All settings lie inside what the machine can do.", ""},
          {"time", "Time?", Status::Meets, "About 75 min for 0.23 m².", ""},
          {"air_and_eyes", "Air and eyes?", Status::NotKnown, "Old red oxide may hold lead: test first. Eyes at risk within 48 m.",
           "Test a chip of the coat for lead and chromate."}};
}

std::vector<VerdictRow> mendedVerdict() {
  std::vector<VerdictRow> rows = failingVerdict();
  rows[0] = {"comes_off", "Comes off?", Status::Near, "Bare nearly everywhere after 10 passes.", "Prove it on a patch first."};
  rows[1] = {"even", "Even?", Status::Meets, "Edges and middle get the same, ripple 12 %.", ""};
  rows[2] = {"temperature", "Cool enough?", Status::Meets, "Back face 101 °C of 150 °C (paint behind, typical).", ""};
  return rows;
}

void addAirAndEyes(Assessment& made) {
  made.air.removed_kg = 0.083;
  made.air.fume_kg_s = 0.083 / *made.job.beamTime_s;
  made.air.hazards = {{Harm::Lungs, "Lead in red oxide primer: test before the beam is on, until then take it to be there."}};
  made.precautions = {{"extraction", "extraction at the head", "None is planned: catch the fume where it is made."},
                      {"fire-watch", "fire watch and extinguisher", "Somebody watches while the beam is on and long after."}};
  made.eyes = {48.0, 0.6, 6.0};
  made.findOutNext = {
      {"Total thickness of the coat", "Ten readings with a gauge, two of them near the beading", "25 to 170 min becomes 45 to 95 min"}};
  made.notes = {"Waviness of the sheet and of the hand is not part of this estimate."};
}

Assessment common(const Settings& settings) {
  Assessment made;
  made.machine = "bench-300";
  made.beam = beam();
  made.overlap = overlap(settings);
  made.path = path(settings);
  const Dose dose = roughDose(settings, made.beam.meanPower_W, made.beam.spotDiameter_m, turnaround_s);
  made.map = std::make_shared<DoseMap>(dose.map);
  made.profile = dose.profile;
  made.dose = dose.result;
  made.finish = {4.4e4, true, 1.1 * um, 2.1 * um};
  made.workings = workings();
  return made;
}

}  // namespace

Project panel() {
  Project made;
  made.name = "Carriage side panel (invented)";
  made.part.thickness_m = Range::exact(1.2 * mm);
  made.part.size_m = {0.6, 0.4};
  made.part.limits = {{"back_face_C", 150}};
  made.part.behind = {Behind::Paint};
  made.part.areas.push_back({"open panel", 0.21, 0, Access::Open, {}, {}, {}, {}, {}, {}, {}, {}});
  made.coat = {layer("maroon", "alkyd-dark", 45, "#6b1f2a", Behaviour::Decomposes),
               layer("cream", "alkyd-white", 60, "#efe3c2", Behaviour::Scorches),
               layer("grey", "alkyd-grey", 40, "#8d9497", Behaviour::Decomposes),
               layer("white", "alkyd-white", 50, "#f4f3ee", Behaviour::Decomposes),
               layer("red oxide primer", "primer-red-oxide", 35, "#8c3b2a", Behaviour::Spalls)};
  made.machines = {benchMachine()};
  Plan first, second;
  first.name = "first guess";
  second.name = "mended";
  first.machine = second.machine = "bench-300";
  first.settings = firstSettings();
  second.settings = mendedSettings();
  made.plans = {first, second};
  made.currency = "EUR";
  return made;
}

std::shared_ptr<const Assessment> firstGuess() {
  Assessment made = common(firstSettings());
  made.plan = "first guess";
  made.removal = removal(*made.map, *made.dose, 4, true);
  made.thermal = thermal(4, 420, 0, 100, 26);
  made.job = job(75 * 60);
  made.verdict = failingVerdict();
  made.answer = "Does not come off as set: the cream layer stalls; 75 min, 82 EUR; back face 139 of 150 °C; prove on a patch first";
  addAirAndEyes(made);
  return std::make_shared<const Assessment>(std::move(made));
}

std::shared_ptr<const Assessment> mended() {
  Assessment made = common(mendedSettings());
  made.plan = "mended";
  made.removal = removal(*made.map, *made.dose, 10, false);
  made.thermal = thermal(10, 800, 90, 82, 12);
  made.job = job(138 * 60);
  made.verdict = mendedVerdict();
  made.answer = "Comes off in about 10 passes, 2 h 20 min; back face 101 of 150 °C; prove on a patch first";
  addAirAndEyes(made);
  return std::make_shared<const Assessment>(std::move(made));
}

std::shared_ptr<const Assessment> continuous() {
  Assessment made = *mended();
  made.beam.pulseEnergy_J.reset();
  made.beam.peakFluence_J_m2.reset();
  made.overlap.pulseStep_m.reset();
  made.overlap.pulseOverlap.reset();
  made.overlap.pulsesPerSpot.reset();
  made.dose->edgeRatio.reset();
  made.finish.meltFluence_J_m2.reset();
  made.removal = {};
  made.thermal.trace = made.thermal.backTrace = {};
  made.thermal.lastFrame = {};
  made.verdict[0] = {"comes_off", "Comes off?", Status::NotKnown, "This version cannot tell how a continuous beam removes this coat.", ""};
  made.answer = "Whether it comes off is not known for this beam; 65 min";
  return std::make_shared<const Assessment>(std::move(made));
}

std::vector<Remedy> remedies() {
  const auto outcome = mended();
  const Settings settings = mendedSettings();
  return {{"even", "Beam off in the turns", "edges 1.3 to 1.0 times the middle, time as before", settings, outcome},
          {"comes_off", "Step over 31 mm instead of 35 mm", "missed 3.0 to 0 %, +7 min", settings, outcome},
          {"temperature", "Wait 90 s between passes", "back 139 to 101 °C, +6 min", settings, outcome},
          {"comes_off", "Ten passes instead of four", "bare 0 to 99 %, +63 min", settings, outcome}};
}

}  // namespace bw::fake
