// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/fit_picture.h"

#include <algorithm>

namespace bw {

namespace {

template <class T>
FitPicture pictureOf(FitKind kind, const Learnt<T>& learnt, std::optional<double> at = {}) {
  return {kind, at, {}, {}, learnt.problem, learnt.remarks};
}

FitKind kindOf(const std::vector<Mark>& marks) {
  if (marks.empty() || marks.front().pulseEnergy_J) return FitKind::SpotByEnergy;
  return marks.front().speed_m_s ? FitKind::SpotByLineEnergy : FitKind::SpotByPower;
}

std::optional<double> doseOf(const Mark& mark) {
  if (mark.pulseEnergy_J) return mark.pulseEnergy_J;
  if (!mark.power_W) return std::nullopt;
  return mark.speed_m_s ? *mark.power_W / *mark.speed_m_s : *mark.power_W;
}

FitPicture ofMarks(const MarkSeries& series, const SpotAt& at) {
  FitPicture picture = pictureOf(kindOf(series.marks), at.spot, at.focusOffset_m);
  for (const Mark& mark : series.marks) {
    if (const auto dose = doseOf(mark)) picture.points.push_back({*dose, mark.width_m});
  }
  if (at.spot.value) picture.curve = at.spot.value->curve;
  return picture;
}

FitPicture ofCaustic(const Measurements& measurements, const Proposal& proposal) {
  FitPicture picture = pictureOf(FitKind::Caustic, *proposal.caustic);
  for (const Plane& plane : measurements.diameters) picture.points.push_back({plane.position_m, plane.diameter_m});
  for (const SpotAt& at : proposal.spots) {
    if (!at.spot.value) continue;
    const Range& d = at.spot.value->diameter_m;
    picture.points.push_back({at.focusOffset_m, {d.likely, (d.high - d.low) / 2}});
  }
  if (proposal.caustic->value) picture.curve = proposal.caustic->value->curve;
  return picture;
}

FitPicture ofProportion(FitKind kind, const std::vector<Dialled>& given, const Learnt<Proportion>& learnt) {
  FitPicture picture = pictureOf(kind, learnt);
  for (const Dialled& reading : given) picture.points.push_back({reading.dialled, reading.measured});
  if (learnt.value) picture.curve = learnt.value->curve;
  return picture;
}

FitPicture ofTurnaround(const Measurements& measurements, const Learnt<TurnaroundFit>& learnt) {
  FitPicture picture = pictureOf(FitKind::Turnaround, learnt);
  for (const LineTime& line : lineTimes(measurements.frameTimes)) {
    picture.points.push_back({line.length_m, {line.time_s.value - line.length_m / line.speed_m_s, line.time_s.uncertainty}});
  }
  if (!learnt.value) return picture;
  const Range& turn = learnt.value->turnaround_s;
  const double end = picture.points.empty() ? 0 : std::ranges::max(picture.points, {}, &ReadingPoint::x).x;
  const auto speed = measurements.frameTimes.empty() ? 0 : measurements.frameTimes.front().scanSpeed_m_s;
  // Where the dialled speed is not kept, what is left grows with the length.
  const double more = learnt.value->speedShare && speed > 0 ? end / speed * (1 / learnt.value->speedShare->likely - 1) : 0;
  picture.curve = {{0, turn}, {end, {turn.low + more, turn.likely + more, turn.high + more}}};
  return picture;
}

FitPicture ofPower(const Machine& machine, const Measurements& measurements, const Learnt<DeliveredPower>& learnt) {
  FitPicture picture = pictureOf(FitKind::Power, learnt);
  for (const PowerReading& reading : measurements.powers)
    picture.points.push_back({reading.dialledShare * machine.ratedPower_W, reading.atPart_W});
  if (learnt.value) picture.curve = learnt.value->line.curve;
  return picture;
}

/// P = min(E f, P_most), each end by itself: rise and level come from readings of their own.
FittedCurve ceilingCurve(const EnergyCeiling& found, double lowest_Hz, double highest_Hz) {
  const auto at = [&](double rate_Hz) {
    Range power_W = found.pulseEnergy_J * rate_Hz;
    if (found.meanPower_W) {
      power_W = {std::min(power_W.low, found.meanPower_W->low), std::min(power_W.likely, found.meanPower_W->likely),
                 std::min(power_W.high, found.meanPower_W->high)};
    }
    return CurvePoint{rate_Hz, power_W};
  };
  constexpr int steps = 60;
  FittedCurve curve;
  for (int i = 0; i <= steps; ++i) curve.push_back(at(lowest_Hz + (highest_Hz - lowest_Hz) * i / steps));
  return curve;
}

FitPicture ofCeiling(const RateSeries& series, const CeilingAt& at) {
  FitPicture picture = pictureOf(FitKind::Ceiling, at.ceiling, at.pulseDuration_s);
  for (const RateReading& reading : series.readings) picture.points.push_back({reading.repetitionRate_Hz, reading.power_W});
  if (!at.ceiling.value) return picture;
  const auto [lowest, highest] = std::ranges::minmax(series.readings, {}, &RateReading::repetitionRate_Hz);
  picture.curve = ceilingCurve(*at.ceiling.value, lowest.repetitionRate_Hz, highest.repetitionRate_Hz);
  return picture;
}

}  // namespace

std::vector<FitPicture> picturesOf(const Machine& machine, const Measurements& measurements, const Proposal& proposal) {
  std::vector<FitPicture> pictures;
  for (std::size_t i = 0; i < proposal.spots.size(); ++i) pictures.push_back(ofMarks(measurements.marks[i], proposal.spots[i]));
  if (proposal.caustic) pictures.push_back(ofCaustic(measurements, proposal));
  if (proposal.width) pictures.push_back(ofProportion(FitKind::LitWidth, measurements.widths, *proposal.width));
  if (proposal.height) pictures.push_back(ofProportion(FitKind::LitHeight, measurements.heights, *proposal.height));
  if (proposal.turnaround) pictures.push_back(ofTurnaround(measurements, *proposal.turnaround));
  if (proposal.power) pictures.push_back(ofPower(machine, measurements, *proposal.power));
  for (std::size_t i = 0; i < proposal.ceilings.size(); ++i) pictures.push_back(ofCeiling(measurements.rates[i], proposal.ceilings[i]));
  return pictures;
}

}  // namespace bw
