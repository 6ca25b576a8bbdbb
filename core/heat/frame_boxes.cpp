// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/frame_boxes.h"

#include "core/scan/path.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

/// One lit stretch: when, where, how far it reaches.
struct Dash {
  double time_s = 0;  // its middle
  double lit_s = 0;
  Point low, high;
  Point middle() const { return 0.5 * (low + high); }
  Point size() const { return high - low; }
};

/// Dashes alike, evenly spaced in place and time.
struct Row {
  std::vector<Dash> dashes;
  Point step() const { return dashes.size() > 1 ? Point(dashes[1].middle() - dashes[0].middle()) : Point(Point::Zero()); }
  double interval_s() const { return dashes.size() > 1 ? dashes[1].time_s - dashes[0].time_s : 0; }
};

bool alongAxis(const Point& way, double scale) { return std::min(std::abs(way.x()), std::abs(way.y())) <= 1e-6 * scale; }

bool continues(const Row& row, const Dash& dash) {
  const Dash& last = row.dashes.back();
  const double scale = std::max(last.size().maxCoeff(), 1e-9);
  if ((dash.size() - last.size()).cwiseAbs().maxCoeff() > 1e-6 * scale || std::abs(dash.lit_s - last.lit_s) > 1e-6 * last.lit_s)
    return false;
  const Point step = dash.middle() - last.middle();
  if (row.dashes.size() == 1) return alongAxis(step, scale) && step.norm() <= 4 * scale;  // beside it: not the turn at the other end
  return (step - row.step()).norm() <= 1e-6 * scale && std::abs(dash.time_s - last.time_s - row.interval_s()) <= 1e-6 * row.interval_s();
}

std::vector<Row> rowsOf(const std::vector<Dash>& dashes) {
  std::vector<Row> rows;
  for (const Dash& dash : dashes) {
    const auto row = std::ranges::find_if(rows, [&](const Row& r) { return continues(r, dash); });
    if (row == rows.end())
      rows.push_back({{dash}});
    else
      row->dashes.push_back(dash);
  }
  return rows;
}

/// The row's stretch, moving along the stack from half a step before its first to half a step behind its last.
LightBox slowBox(const Row& row, double period_s) {
  const Dash &first = row.dashes.front(), &last = row.dashes.back();
  const double interval = row.dashes.size() > 1 ? row.interval_s() : first.lit_s;
  LightBox box;
  const double begin = std::max(0.0, first.time_s - interval / 2), end = std::min(period_s, last.time_s + interval / 2);
  box.interval_s = interval;
  box.velocity = row.dashes.size() > 1 ? Point(row.step() / interval) : Point(Point::Zero());
  box.begin_s = begin;
  box.duration_s = end - begin;
  box.middle = first.middle() + box.velocity * (begin - first.time_s);
  box.size = first.size();
  box.share = static_cast<double>(row.dashes.size()) * first.lit_s / box.duration_s;
  return box;
}

LightBox wholeBox(const Row& row, double period_s) {
  const Dash &first = row.dashes.front(), &last = row.dashes.back();
  LightBox box;
  box.duration_s = period_s;
  box.middle = 0.5 * (first.middle() + last.middle());
  box.size = first.size() + row.step().cwiseAbs() * static_cast<double>(row.dashes.size());
  box.share = static_cast<double>(row.dashes.size()) * first.lit_s / period_s;
  return box;
}

/// One short moment of light.
struct Sample {
  Point at;
  double lit_s;
};

std::vector<Sample> samplesOf(const Frame& frame, const Travel& turned) {
  std::vector<Sample> samples;
  for (const Stretch& stretch : frame.stretches()) {
    if (!stretch.lit) continue;
    const int count = std::clamp(static_cast<int>(64 * stretch.turns()), 16, 4096);
    for (int i = 0; i < count; ++i)
      samples.push_back({turned.onPart(stretch.at((i + 0.5) / count * stretch.duration_s), 0), stretch.duration_s / count});
  }
  return samples;
}

/// Means of powers of lit places.
struct Moments {
  double lit_s = 0;
  Point mean = Point::Zero(), variance = Point::Zero();
  Point third = Point::Zero(), fourth = Point::Zero();  // about the mean
  double slant = 0;
};

template <class Samples>
Moments momentsOf(const Samples& samples) {
  Moments m;
  for (const Sample& sample : samples) {
    m.lit_s += sample.lit_s;
    m.mean += sample.lit_s * sample.at;
  }
  if (m.lit_s <= 0) return m;
  m.mean /= m.lit_s;
  for (const Sample& sample : samples) {
    const Point away = sample.at - m.mean, square = away.cwiseProduct(away);
    const double w = sample.lit_s / m.lit_s;
    m.variance += w * square;
    m.third += w * square.cwiseProduct(away);
    m.fourth += w * square.cwiseProduct(square);
    m.slant += w * away.prod();
  }
  return m;
}

LightBox boxOf(const Moments& m, double period_s) {
  LightBox box;
  box.duration_s = period_s;
  box.middle = m.mean;
  box.size = (12 * m.variance).cwiseSqrt();
  box.share = m.lit_s / period_s;
  return box;
}

/// One box for several: their light, mean and variances.
LightBox together(const std::vector<LightBox>& boxes) {
  LightBox all = boxes.front();
  all.share = 0;
  all.middle = Point::Zero();
  for (const LightBox& box : boxes) all.share += box.share;
  for (const LightBox& box : boxes) all.middle += box.share / all.share * box.middle;
  Point variance = Point::Zero();
  for (const LightBox& box : boxes) variance += box.share / all.share * (box.size.cwiseAbs2() / 12 + (box.middle - all.middle).cwiseAbs2());
  all.size = (12 * variance).cwiseSqrt();
  return all;
}

/// What a box with the mean and variances of that light gets wrong. The factors are the greatest third and fourth derivatives of a
/// Gaussian, 1.38/s^3 and 3/s^4, over 3! and 4!, and its greatest mixed second, 0.37/s^2.
Misshape misshapeOf(const Moments& m) {
  return {0.23 * m.third.cwiseAbs().sum(), 0.125 * (m.fourth - 1.8 * m.variance.cwiseProduct(m.variance)).cwiseAbs().sum(),
          0.37 * std::abs(m.slant)};
}

/// Cuts the frame into a grid of tiles, each an even box with the mean and variances of the light in it, and adds up what they get wrong.
void addTiles(const std::vector<Sample>& samples, FrameBoxes& boxes) {
  constexpr double mostTiles = 48;
  Point low = samples.front().at, high = low;
  double lit = 0;
  for (const Sample& sample : samples) {
    low = low.cwiseMin(sample.at);
    high = high.cwiseMax(sample.at);
    lit += sample.lit_s;
  }
  const Point size = (high - low).cwiseMax(1e-9 + 1e-3 * (high - low).maxCoeff());
  const double side = std::max(std::sqrt(size.prod() / mostTiles), size.maxCoeff() / mostTiles);
  const int nx = static_cast<int>(std::ceil(size.x() / side - 1e-9)), ny = static_cast<int>(std::ceil(size.y() / side - 1e-9));
  std::vector<std::vector<Sample>> tiles(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  for (const Sample& sample : samples) {
    const int i = std::min(nx - 1, static_cast<int>((sample.at.x() - low.x()) / size.x() * nx));
    const int j = std::min(ny - 1, static_cast<int>((sample.at.y() - low.y()) / size.y() * ny));
    tiles[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) + static_cast<std::size_t>(i)].push_back(sample);
  }
  for (const auto& tile : tiles) {
    if (tile.empty()) continue;
    const Moments m = momentsOf(tile);
    boxes.whole.push_back(boxOf(m, boxes.period_s));
    const double share = m.lit_s / lit;
    const Misshape wrong = misshapeOf(m);
    boxes.wholeWrong.skew_m3 += share * wrong.skew_m3;
    boxes.wholeWrong.bulge_m4 += share * wrong.bulge_m4;
    boxes.wholeWrong.slant_m2 += share * wrong.slant_m2;
  }
}

Dash dashOf(const Stretch& stretch, const Travel& turned) {
  Dash dash{stretch.begin_s + stretch.duration_s / 2, stretch.duration_s, turned.onPart(stretch.at(0), 0), turned.onPart(stretch.at(0), 0)};
  constexpr int steps = 16;
  for (int i = 1; i <= steps; ++i) {
    const Point at = turned.onPart(stretch.at(stretch.duration_s * i / steps), 0);
    dash.low = dash.low.cwiseMin(at);
    dash.high = dash.high.cwiseMax(at);
  }
  return dash;
}

}  // namespace

double Misshape::at(double variance_m2) const {
  const double s = std::sqrt(variance_m2);
  return skew_m3 / (s * s * s) + bulge_m4 / (variance_m2 * variance_m2) + slant_m2 / variance_m2;
}

double Misshape::below_m2(double share) const {
  double variance = 1e-12;
  while (at(variance) > share && variance < 1) variance *= 1.2;
  return variance;
}

bool passesEnd(const Point& from, const Point& to, const Point& size, double length_m) {
  const double low = std::min(from.y(), to.y()) - size.y() / 2, high = std::max(from.y(), to.y()) + size.y() / 2;
  return low < 0 || high > length_m;
}

FrameBoxes boxesOf(const Frame& frame, double travelAngle_rad) {
  const Travel turned(0, travelAngle_rad);
  FrameBoxes boxes;
  boxes.period_s = frame.period_s();
  const std::vector<Sample> samples = samplesOf(frame, turned);
  if (samples.empty()) return boxes;
  const Moments moments = momentsOf(samples);
  boxes.all = boxOf(moments, boxes.period_s);
  boxes.allWrong = misshapeOf(moments);

  std::vector<Dash> dashes;
  bool plain = true;
  for (const Stretch& stretch : frame.stretches()) {
    if (!stretch.lit) continue;
    dashes.push_back(dashOf(stretch, turned));
    const Point way = turned.onPart(stretch.velocity, 0);
    plain = plain && stretch.rate_rad_s == 0 && (!stretch.isStraight() || alongAxis(way, way.norm()));
  }
  constexpr std::size_t mostRows = 12;
  const std::vector<Row> rows = plain ? rowsOf(dashes) : std::vector<Row>{};
  boxes.hasRows = plain && rows.size() <= mostRows;
  if (!boxes.hasRows) {
    addTiles(samples, boxes);
    return boxes;
  }
  boxes.longRows = std::ranges::all_of(rows, [](const Row& row) { return row.dashes.size() >= 4; });
  for (const Row& row : rows) {
    boxes.rows.push_back(slowBox(row, boxes.period_s));
    boxes.whole.push_back(wholeBox(row, boxes.period_s));
    boxes.rowInterval_s = std::max(boxes.rowInterval_s, row.dashes.size() > 1 ? row.interval_s() : row.dashes.front().lit_s);
    boxes.rowGap_m = std::max(boxes.rowGap_m, row.step().norm());
  }
  boxes.all = together(boxes.whole);
  return boxes;
}

}  // namespace bw
