// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"

#include "core/heat/part_map.h"
#include "core/job/work.h"
#include "core/materials/emissivity.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

bool alongY(double angle_rad) { return std::abs(std::sin(angle_rad)) >= std::abs(std::cos(angle_rad)); }

TourPlan tourPlan(const Work& work) {
  const Settings& s = work.settings();
  const auto size = work.project.part.size_m;
  TourPlan plan;
  plan.part_m = alongY(s.travelAngle_rad) ? Point(size[0], size[1]) : Point(size[1], size[0]);
  plan.area_m2 = areaOf_m2(areasOf(work.project.part, work.step));
  plan.travelSpeed_m_s = s.travelSpeed_m_s;
  plan.stepOver_m = s.stepOver_m;
  plan.litWidth_m = std::max(0.0, work.scan->lit.high.x() - work.scan->lit.low.x());
  plan.order = s.swathOrder;
  plan.passes = s.passes;
  plan.pause_s = s.pause_s;
  return plan;
}

/// The trace's front, and the hottest point in each stroke that goes over it.
std::vector<double> nearAlong(const WorkHeat& heat, const HotPlace& hot, const FaceHistory& trace) {
  std::vector<double> near_C = trace.front_C;
  const TourStroke& hottest = heat.near().tour().strokes[static_cast<std::size_t>(hot.stroke)];
  for (const TourStroke& stroke : heat.near().tour().strokes) {
    if (std::abs(stroke.start.x() - hottest.start.x()) > 1e-9) continue;
    const double way = hot.query.place.y() - stroke.start.y();
    const double over =
        stroke.speed_m_s != 0 ? std::clamp(stroke.clock_s + way / stroke.speed_m_s, stroke.begin_s, stroke.end_s) : stroke.begin_s;
    raiseAt(trace.time_s, near_C, over, heat.with(hot.query.place, over, hot.pointRise).front_C);
  }
  raiseAt(trace.time_s, near_C, hot.query.time_s, hot.point_C);
  return near_C;
}

}  // namespace

HeatInput heatInput(const Work& work, double spotRadius_m, double power_W) {
  const Part& part = work.project.part;
  HeatInput input;
  input.tour = tourPlan(work);
  input.sheet.metal = {work.metal.conductivityCurve, work.metal.specificHeatCurve, work.metal.conductivity_W_mK.likely,
                       work.metal.specificHeat_J_kgK.likely, work.metal.density_kg_m3.likely};
  input.sheet.thickness_m = part.thickness_m.likely;
  input.sheet.size_m = input.tour.part_m;
  input.sheet.filmCoefficient_W_m2K = part.filmCoefficient_W_m2K;
  input.sheet.emissivity = emissivity(work.metal.family).likely;
  input.sheet.ambient_C = part.ambientTemperature_C;
  input.sheet.start_C = part.startTemperature_C;
  input.power_W = power_W;
  input.spotRadius_m = spotRadius_m;
  return input;
}

/// Near heat is laid where a swath alone would raise the metal by so much; of that, not quite two thirds while it is near.
Plate nearPlate(const HeatInput& input, double litFraction) {
  constexpr double most_K = 400, meanwhile = 0.6;
  const Plate cold = plateAt(input.sheet, input.sheet.start_C);
  const double perArea = input.power_W * litFraction / (input.tour.travelSpeed_m_s * input.tour.stepOver_m);
  const double rise = perArea / (cold.heatCapacity_J_m3K * cold.thickness_m);
  return plateAt(input.sheet, input.sheet.start_C + std::min(most_K, meanwhile * rise));
}

/// How far back the frame's own hot spots are looked for: as long as heat crosses the sheet, and in a foil at least some pulses or
/// passages.
double spotAge_s(const Work& work, const Plate& plate, double spotRadius_m) {
  constexpr double some = 20;
  const double pulse = work.scan->emission.pulsed ? 1 / work.scan->emission.rate_Hz : 0;
  return std::max(plate.mixingAge_s(), some * std::max(pulse, spotRadius_m / std::max(topScanSpeed_m_s(work.settings()), 1e-9)));
}

double coolingTime_s(const PartSheet& sheet) {
  constexpr double shortest_s = 60, longest_s = 1800;
  const double rate = plateAt(sheet, sheet.start_C).lossRate_1_s();
  return std::clamp(2 / std::max(rate, 1e-9), shortest_s, longest_s);
}

HeatedTour::HeatedTour(const Work& work, const HeatInput& input, HandTour tour, double cells, double cooling_s)
    : m_scan(work.scan),
      m_cooling(cooling_s),
      m_part(input.sheet, {cells}, nearPlate(input, work.scan->frame->litFraction()), input.spotRadius_m, work.scan->frame->period_s()),
      m_near(*work.scan->frame, work.settings().travelAngle_rad, work.scan->emission, input.spotRadius_m,
             nearPlate(input, work.scan->frame->litFraction()), std::move(tour), m_part.handover_s()),
      m_run(m_part.run(m_near.tour(), m_near.boxes(), input.power_W, cooling_s, work.stop)),
      m_heat(m_near, m_part.enthalpy(), m_run.field, input.power_W) {}

HandTour strippingTour(HandTour tour, const RemovalResult& removal, const Metal& metal) {
  const auto& shares = removal.heatIntoPartByPass;
  if (shares.empty()) return tour;
  for (TourStroke& stroke : tour.strokes)
    stroke.share = shares[std::min(static_cast<std::size_t>(stroke.pass), shares.size() - 1)] / std::max(1e-6, metal.absorptance.high);
  return tour;
}

PartMap heatMap(const Work& work, const BareHeat& bare, const Assessment& first) {
  constexpr int times = 120;
  const ThermalResult& thermal = first.thermal;
  const bool coatIsWorse = thermal.frontStripping_C.value_or(-1e300) > thermal.frontBare_C.value_or(0);
  const double angle = work.settings().travelAngle_rad;
  HandTour tour = coatIsWorse ? strippingTour(bare.tour->tour(), first.removal, work.metal) : bare.tour->tour();
  const HeatedTour heated(work, bare.input, std::move(tour), deepCells, bare.tour->cooling_s());
  return inPartAxes(partMap(heated.heat(), times, work.stop), angle);
}

namespace {

constexpr double stillFollowed_s = 120;

/// The hottest spot of the frame that is over the metal.
const HotSpot& spotOver(const std::vector<HotSpot>& spots, const Point& middle, const Point& part_m) {
  const auto over = std::ranges::find_if(spots, [&](const HotSpot& spot) {
    const Point at = middle + spot.fromMiddle;
    return at.x() >= 0 && at.y() >= 0 && at.x() <= part_m.x() && at.y() <= part_m.y();
  });
  return over == spots.end() ? spots.front() : *over;
}

/// A frame's own ups and downs do not count back: what was reached was reached.
void keepReached(std::vector<double>& temperature_C) {
  for (std::size_t i = 1; i < temperature_C.size(); ++i) temperature_C[i] = std::max(temperature_C[i], temperature_C[i - 1]);
}

/// Along the last stroke, in which the hand stands still.
StillHandHeat followStill(const HeatedTour& still, const std::vector<HotSpot>& spots, double period_s) {
  constexpr double first_s = 0.01, growth = 1.25;
  const TourStroke& stroke = still.tour().strokes.back();
  const HotSpot& spot = spotOver(spots, stroke.start, still.tour().part_m);
  const Point place = (stroke.start + spot.fromMiddle).cwiseMax(Point::Zero()).cwiseMin(still.tour().part_m);
  StillHandHeat heat;
  heat.stopped_s = stroke.begin_s;
  double last = -1;
  for (double since = 0; since < stillFollowed_s; since = std::max(first_s, since * growth)) {
    // Later than a frame: when the beam has just gone over the place.
    double late = since > period_s ? period_s * std::floor(since / period_s) + spot.inFrame_s - period_s : since;
    if (late <= last) continue;
    last = late;
    const double now = stroke.begin_s + late;
    const Faces faces = still.heat().patchAt(place, now);
    heat.time_s.push_back(late);
    heat.front_C.push_back(faces.front_C);
    heat.back_C.push_back(faces.back_C);
    heat.near_C.push_back(std::max(faces.front_C, still.heat().at({place, now, spot.query.youngest_s}).front_C));
  }
  for (auto* face : {&heat.front_C, &heat.back_C, &heat.near_C}) keepReached(*face);
  return heat;
}

/// Where lines and frames make an endless stroke hottest.
std::vector<HotSpot> spotsOf(const Work& work, const HeatInput& input) {
  const Plate plate = nearPlate(input, work.scan->frame->litFraction());
  const double angle = work.settings().travelAngle_rad;
  const PathHeat steady(*work.scan->frame, angle, work.scan->emission, input.spotRadius_m, plate, endlessTour(input.tour.travelSpeed_m_s),
                        spotAge_s(work, plate, input.spotRadius_m));
  return hottestSpots(steady, *work.scan->frame, angle, work.scan->emission);
}

}  // namespace

StillHandHeat stillHandHeat(const Work& work, const BareHeat& bare) {
  const HeatedTour still(work, bare.input, stoppedAt(bare.tour->tour(), bare.hot.back.time_s, stillFollowed_s), quickCells, 0);
  StillHandHeat heat = followStill(still, bare.spots, work.scan->frame->period_s());
  heat.stopped_s = bare.hot.back.time_s;
  const auto startFrom = [&](std::vector<double>& curve_C, double hottest_C) {
    if (!curve_C.empty()) curve_C.front() = std::max(curve_C.front(), hottest_C);
    keepReached(curve_C);
    for (double& value : curve_C) value = std::min(value, work.metal.boiling_C.likely);
  };
  startFrom(heat.front_C, bare.hot.patch.front_C);
  startFrom(heat.back_C, bare.hot.patch.back_C);
  startFrom(heat.near_C, bare.hot.point_C);
  return heat;
}

std::optional<StillHandHeat> standingHeat(const Work& work, const HeatInput& input) {
  const std::vector<HotSpot> spots = spotsOf(work, input);
  if (spots.empty()) return std::nullopt;
  HandTour tour;
  tour.part_m = input.tour.part_m;
  tour.strokes.push_back({0, stillFollowed_s, 0, input.tour.part_m / 2});
  tour.passStart_s = {0};
  const HeatedTour still(work, input, std::move(tour), quickCells, 0);
  return followStill(still, spots, work.scan->frame->period_s());
}

namespace {

Bump bumpAt(const BareHeat& bare) {
  constexpr double reach_m = 0.15;
  constexpr int steps = 30;
  const WorkHeat& heat = bare.tour->heat();
  const double mixing = heat.near().plate().mixingAge_s(), middle = bare.hot.back.place.x(), across = heat.near().tour().part_m.x();
  std::vector<double> place, level;
  for (int i = -steps; i <= steps; ++i) {
    const double x = middle + reach_m * i / steps;
    if (x < 0 || x > across) continue;
    place.push_back(x);
    level.push_back(heat.at({Point(x, bare.hot.back.place.y()), bare.hot.back.time_s, mixing, 0, Smear::Frames}).front_C);
  }
  if (level.empty()) return {};
  const auto [low, high] = std::ranges::minmax(level);
  const double half = 0.5 * (low + high);
  double width = 0;
  for (std::size_t i = 1; i < level.size(); ++i)
    if (level[i] > half || level[i - 1] > half) width += place[i] - place[i - 1];
  return {high - low, std::max(width, 1e-3)};
}

/// The hot place through its stroke in fine time.
FineHistory crossingOf(const Work& work, const BareHeat& bare, double before_s, double after_s, int evenly) {
  const auto index = static_cast<std::size_t>(bare.hot.stroke);
  const TourStroke stroke = shifted(bare.tour->tour().strokes[index], bare.hot.query.frames.of_s(index));
  const double now = bare.hot.query.time_s;
  return fineHistory(bare.tour->near(), *work.scan->frame, work.settings().travelAngle_rad, bare.hot.query, stroke,
                     std::max(stroke.begin_s, now - before_s), now + after_s, evenly);
}

void followCrossing(const Work& work, BareHeat& bare) {
  constexpr double mostFrames = 6;  // followed in fine time; a slower hand repeats them
  const TourStroke& stroke = bare.tour->tour().strokes[static_cast<std::size_t>(bare.hot.stroke)];
  const double along = bare.tour->near().boxes().all.size.y() / std::max(std::abs(stroke.speed_m_s), 1e-9);
  const double period = work.scan->frame->period_s(), over = std::max(along, period), followed = std::min(over, mostFrames * period);
  bare.crossing = crossingOf(work, bare, followed, followed, 30);
  bare.crossingRepeats = over / followed;
}

}  // namespace

std::shared_ptr<const BareHeat> bareHeat(const Work& work, const HeatInput& input, double cells, HeatWanted wanted) {
  if (!work.scan->frame || !(input.tour.travelSpeed_m_s > 0)) return nullptr;
  HandTour way = tourOf(input.tour);
  if (way.end_s() > longestFollowed_s) return nullptr;
  auto heated = work.crew.beside([&, way = std::move(way)]() mutable {
    return std::make_shared<const HeatedTour>(work, input, std::move(way), cells, coolingTime_s(input.sheet));
  });
  auto out = std::make_shared<BareHeat>();
  out->input = input;
  out->spots = spotsOf(work, input);
  out->tour = heated.get();
  if (out->spots.empty()) return nullptr;  // nothing is lit
  constexpr int mostPieces = 6000;         // of a query; a thousand are usual
  out->coarse = out->tour->near().pieces(out->spots.front().query) > mostPieces;
  Closer closer;
  if (wanted == HeatWanted::Peaks) closer = {2, 5};
  if (out->coarse) closer = {1, 0};
  closer.enough_C = work.metal.boiling_C.likely;
  out->hot = hottestPlace(out->tour->heat(), *work.scan->frame, work.settings().travelAngle_rad, work.scan->emission, out->spots, work.stop,
                          closer, work.crew);
  if (wanted == HeatWanted::Peaks) return out;
  auto fine = work.crew.beside([&] {
    const double period = work.scan->frame->period_s();
    out->lastFrame = crossingOf(work, *out, 0.3 * period, 0.7 * period, 120);
    followCrossing(work, *out);
    out->bump = bumpAt(*out);
  });
  const auto traced = [&](const Point& place) {
    return traceAt(out->tour->heat(), place, traceTimes(out->tour->tour(), out->tour->near().boxes(), place, out->tour->cooling_s()),
                   work.crew);
  };
  out->trace = traced(out->hot.front.place);
  raiseAt(out->trace.time_s, out->trace.front_C, out->hot.front.time_s, out->hot.patch.front_C);
  out->backTrace = traced(out->hot.back.place);
  raiseAt(out->backTrace.time_s, out->backTrace.back_C, out->hot.back.time_s, out->hot.patch.back_C);
  out->near_C = nearAlong(out->tour->heat(), out->hot, out->trace);
  fine.get();
  return out;
}

}  // namespace bw
