// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/laid_light.h"

#include "core/heat/blurred_strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace bw {

namespace {

constexpr double tail = 6.4;  // deviations: what is beyond is less than 1e-10

/// Integral of the normal distribution up to u deviations s.
double ramp(double u, double s) {
  if (u < -tail * s) return 0;
  if (u > tail * s) return u;
  const double x = u / s;
  return 0.5 * u * std::erfc(-x / std::numbers::sqrt2) + s * std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
}

/// Of the strip [low, high], its density 1/size, blurred: how much lies below x.
double below(double x, double low, double high, double size, double s) {
  if (size <= 0) return 0.5 * std::erfc((low - x) / s / std::numbers::sqrt2);
  return (ramp(x - low, s) - ramp(x - high, s)) / size;
}

/// The same with the ends' images, up to a constant.
double belowBetweenEnds(double x, double low, double high, double size, double s, double length) {
  if (x + low > tail * s && 2 * length - x - high > tail * s) return below(x, low, high, size, s);
  double sum = 0;
  for (int k = -1; k <= 1; ++k) sum += below(x + 2 * k * length, low, high, size, s);
  for (int k = -1; k <= 2; ++k) sum -= below(2 * k * length - x, low, high, size, s);
  return sum + (size > 0 ? (high - low) / size : 1);
}

/// Share of a box's light that lands on a bar.
double landed(double middle, double size, double length) {
  if (size <= 0) return middle >= 0 && middle <= length ? 1 : 0;
  return std::max(0.0, std::min(length, middle + size / 2) - std::max(0.0, middle - size / 2)) / size;
}

}  // namespace

void addCellMeans(double middle, double size, double variance, double length, double cell_m, int first, double weight,
                  std::vector<double>& means) {
  const int count = static_cast<int>(means.size());
  if (variance > length * length / 9) {  // so smooth that the middle tells the mean
    for (int i = 0; i < count; ++i)
      means[static_cast<std::size_t>(i)] += weight * blurredShare_1_m((first + i + 0.5) * cell_m, middle, size, variance, length);
    return;
  }
  if (size * size < 1e-6 * variance) size = 0;  // and not the difference of two like numbers
  const double s = std::sqrt(variance), low = std::max(middle - size / 2, 0.0), high = std::min(middle + size / 2, length);
  if (high < low || (size > 0 && high == low)) return;
  const int from = std::max(0, static_cast<int>(std::floor((low - tail * s) / cell_m)) - first);
  const int to = std::min(count, static_cast<int>(std::ceil((high + tail * s) / cell_m)) - first);
  if (from >= to) return;
  double before = belowBetweenEnds((first + from) * cell_m, low, high, size, s, length);
  for (int i = from; i < to; ++i) {
    const double after = belowBetweenEnds((first + i + 1) * cell_m, low, high, size, s, length);
    means[static_cast<std::size_t>(i)] += weight / cell_m * (after - before);
    before = after;
  }
}

LaidLight::LaidLight(const HandTour& tour, std::vector<LightBox> boxes, double power_W, double variance_m2, double late_s)
    : m_tour(tour), m_boxes(std::move(boxes)), m_power(power_W), m_variance(variance_m2), m_late(late_s), m_acrossOf(m_boxes.size()) {}

/// Middles of a stroke's frame that stand for its way between two times (Gauss's rule), and the energy of each: many where the frame goes
/// over an end of the part.
template <class Visit>
void LaidLight::eachMoment(const TourStroke& stroke, double from_s, double to_s, Visit visit) const {
  const double from = std::max(from_s, stroke.begin_s), to = std::min(to_s, stroke.end_s);
  if (to <= from) return;
  const Point size = m_boxes.front().size, offset = m_boxes.front().middle;
  const bool atEnd = passesEnd(stroke.middleAt(from) + offset, stroke.middleAt(to) + offset, size, m_tour.part_m.y());
  const double deviation = std::sqrt(m_variance), way = std::abs(stroke.speed_m_s) * (to - from);
  const double longest = atEnd ? std::max({0.1 * size.y(), 0.1 * deviation, way / 400}) : 1.5 * deviation;
  const int pieces = std::clamp(static_cast<int>(std::ceil(way / longest)), 1, 400);
  const double piece = (to - from) / pieces, energy = m_power * stroke.share * piece;
  for (int i = 0; i < pieces; ++i) {
    const double middle = from + (i + 0.5) * piece, off = way > 0.2 * deviation * pieces ? piece / std::sqrt(12) : 0;
    if (off > 0) {
      visit(Moment{stroke.middleAt(middle - off), energy / 2});
      visit(Moment{stroke.middleAt(middle + off), energy / 2});
    } else {
      visit(Moment{stroke.middleAt(middle), energy});
    }
  }
}

double LaidLight::landed_J(double from_s, double to_s) const {
  double sum = 0;
  for (const TourStroke& stroke : m_tour.strokes) {
    eachMoment(stroke, from_s, to_s, [&](const Moment& moment) {
      for (const LightBox& box : m_boxes) {
        const Point at = moment.middle + box.middle;
        sum +=
            moment.energy_J * box.share * landed(at.x(), box.size.x(), m_tour.part_m.x()) * landed(at.y(), box.size.y(), m_tour.part_m.y());
      }
    });
  }
  return sum;
}

double LaidLight::lay(double from_s, double to_s, double kept, const CellRange& covered, CellBlock& block) {
  std::ranges::fill(block.source_W_m3(), 0.0);
  const double from = from_s - m_late, to = to_s - m_late;
  double energy = 0;
  auto stroke = std::ranges::upper_bound(m_tour.strokes, from, {}, &TourStroke::end_s);
  for (; stroke != m_tour.strokes.end() && stroke->begin_s < to; ++stroke) {
    m_moments.clear();
    eachMoment(*stroke, from, to, [&](const Moment& moment) { m_moments.push_back(moment); });
    if (m_moments.empty()) continue;
    for (std::size_t box = 0; box < m_boxes.size(); ++box) energy += layBox(box, covered, kept / (to_s - from_s), block);
  }
  return energy;
}

/// Strokes go along, so that all of a stroke's moments lie alike across.
const std::vector<double>& LaidLight::acrossOf(std::size_t index, const CellBlock& block) {
  const CellRange& range = block.range();
  const LightBox& box = m_boxes[index];
  Across& known = m_acrossOf[index];
  const double middle = m_moments.front().middle.x() + box.middle.x();
  const auto count = static_cast<std::size_t>(range.across);
  if (known.middle_m == middle && known.first == range.firstAcross && known.shares.size() == count) return known.shares;
  known = {middle, range.firstAcross, std::vector<double>(count, 0)};
  addCellMeans(middle, box.size.x(), m_variance, m_tour.part_m.x(), block.cell_m().x(), range.firstAcross, 1, known.shares);
  return known.shares;
}

double LaidLight::layBox(std::size_t index, const CellRange& covered, double perSecond, CellBlock& block) {
  const CellRange& range = block.range();
  const Point& cell = block.cell_m();
  const LightBox& box = m_boxes[index];
  const std::vector<double>& across = acrossOf(index, block);
  m_along.assign(static_cast<std::size_t>(range.along), 0);
  for (const Moment& moment : m_moments)
    addCellMeans(moment.middle.y() + box.middle.y(), box.size.y(), m_variance, m_tour.part_m.y(), cell.y(), range.firstAlong,
                 box.share * moment.energy_J, m_along);
  const double perVolume = perSecond * cell.prod() / block.cellVolume_m3();
  for (std::size_t j = 0; j < m_along.size(); ++j) {
    if (m_along[j] == 0) continue;
    double* line = block.source_W_m3().data() + j * across.size();
    for (std::size_t i = 0; i < across.size(); ++i) line[i] += perVolume * m_along[j] * across[i];
  }
  const auto sum = [](const std::vector<double>& shares, int first, int end) {
    return std::accumulate(shares.begin() + first, shares.begin() + end, 0.0);
  };
  const double all = sum(across, 0, range.across) * sum(m_along, 0, range.along);
  const double inside = covered.empty() ? 0
                                        : sum(across, covered.firstAcross - range.firstAcross, covered.endAcross() - range.firstAcross) *
                                              sum(m_along, covered.firstAlong - range.firstAlong, covered.endAlong() - range.firstAlong);
  return (all - inside) * cell.prod();
}

}  // namespace bw
