// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/path_heat.h"

#include "core/heat/blurred_strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double pieceLength = 0.7;  // of the blurred spot
constexpr double pieceGrowth = 0.1;  // of its variance, while a piece ages
constexpr double endPiece = 0.07;    // of the frame's size: of its way over an end of the part, at a time
constexpr double pulsesEven = 1.4;   // of the blurred spot: pulses nearer than this make a line that ripples by 8e-5
constexpr double pairLength = 1.2;   // the same of a pair of pieces
constexpr double pairGrowth = 0.3;
constexpr double mostBow = 1.0 / 6;     // of the blurred spot: of a way beside its chord, which goes through its mean
constexpr double nearby = 6.5;          // of the blurred spot: exp(-21) beyond
constexpr double mostUneven = 0.005;    // of a way: how far its middle in time is from its middle
constexpr double firstPiece = 0.15;     // of a full one; then as long as the age, up to a full one
constexpr double mergedFrom = 4;        // pulse periods: younger pulses are taken one by one
constexpr double intervalsOld = 10;     // that lines and frames are when they are smeared
constexpr double mostMisshapen = 0.01;  // of a peak, by one box in place of a frame

/// The middle of a stretch, or of the circle it is a piece of, and how far from there its points lie.
Ring ringOf(const Stretch& stretch, const Travel& turned) {
  if (stretch.isArc()) {
    const double from = stretch.swing.x(), to = from + stretch.growth_m_s.x() * stretch.duration_s;
    return {turned.onPart(stretch.start, 0), std::min(from, to), std::max(from, to)};
  }
  return {turned.onPart(stretch.at(stretch.duration_s / 2), 0), 0, stretch.topSpeed_m_s() * stretch.duration_s / 2};
}

double topSpeed(const Frame& frame) {
  double speed = 0;
  for (const Stretch& stretch : frame.stretches()) speed = std::max(speed, stretch.topSpeed_m_s());
  return speed;
}

/// Whether a box that moves from one middle to another goes over an edge of the part: then only short pieces of its way have one share on
/// it.
bool crossesEdge(const Point& from, const Point& to, const Point& size, const Point& part) {
  const Point low = from.cwiseMin(to) - size / 2, high = from.cwiseMax(to) + size / 2;
  return (low.array() < 0).any() || (high.array() > part.array()).any();
}

/// Gauss and Legendre's two nodes of an integral over age in its root: age, integral of 1/sqrt(age), duration.
template <class Visit>
void eachOfPair(double from_s, double to_s, Visit visit) {
  const double middle = 0.5 * (std::sqrt(from_s) + std::sqrt(to_s)), half = 0.5 * (std::sqrt(to_s) - std::sqrt(from_s));
  for (const double side : {-1.0, 1.0}) {
    const double root = middle + side * half / std::numbers::sqrt3;
    visit(root * root, 2 * half, 2 * root * half);
  }
}

/// Age at which a spot of that radius has spread to a variance.
double ageAt(double variance_m2, double radius_m, double diffusivity) {
  return std::max(0.0, (variance_m2 - radius_m * radius_m / 4) / (2 * diffusivity));
}

double smearFramesFrom(const FrameBoxes& boxes, double radius_m, double diffusivity) {
  const double variance = std::max(boxes.wholeWrong.below_m2(mostMisshapen), boxes.rowGap_m * boxes.rowGap_m);
  return std::max(intervalsOld * boxes.period_s, ageAt(variance, radius_m, diffusivity));
}

}  // namespace

struct PathHeat::Span {
  const TourStroke& stroke;
  double youngest_s;
  double oldest_s;
};

PathHeat::PathHeat(const Frame& frame, double travelAngle_rad, const Emission& emission, double spotRadius_m, const Plate& plate,
                   HandTour tour, double oldest_s)
    : m_frame(frame),
      m_turned(0, travelAngle_rad),
      m_period(emission.pulsed ? 1 / emission.rate_Hz : 0),
      m_radius(spotRadius_m),
      m_plate(plate),
      m_tour(std::move(tour)),
      m_boxes(boxesOf(frame, travelAngle_rad)),
      m_oldest(oldest_s),
      m_speed(topSpeed(frame)) {
  for (const Stretch& stretch : frame.stretches()) m_rings.push_back(ringOf(stretch, m_turned));
  const double alpha = plate.diffusivity_m2_s();
  m_oneBoxFrom_m2 = m_boxes.allWrong.below_m2(mostMisshapen);
  m_fromFrames_s = smearFramesFrom(m_boxes, spotRadius_m, alpha);
  m_fromRows_s = m_boxes.hasRows
                     ? std::max(intervalsOld * m_boxes.rowInterval_s, ageAt(m_boxes.rowGap_m * m_boxes.rowGap_m, spotRadius_m, alpha))
                     : never;
}

double PathHeat::spread_m2(const HeatQuery& query, double age_s) const {
  return m_radius * m_radius / 4 + query.patchVariance_m2 + 2 * query.spreading * m_plate.diffusivity_m2_s() * age_s;
}

double PathHeat::longestPiece_s(const HeatQuery& query, double age_s, double speed_m_s, double length, double growth) const {
  const double alpha = query.spreading * m_plate.diffusivity_m2_s(), L = query.depth_m > 0 ? query.depth_m : m_plate.thickness_m;
  const double variance = spread_m2(query, age_s);
  double full = std::min(length * std::sqrt(variance) / std::max(speed_m_s, 1e-12), growth * variance / (2 * alpha));
  if (!query.throughMean && (alpha * age_s < 0.7 * L * L || query.depth_m > 0))
    full = std::min(full, growth * std::max(age_s, 0.01 * L * L / alpha));
  return std::min(full, std::max(firstPiece * full, age_s));
}

/// As long as its light may differ in age.
double PathHeat::oldestPiece_s(const HeatQuery& query, double age_s) const {
  const double growth = std::min(age_s, spread_m2(query, age_s) / (2 * query.spreading * m_plate.diffusivity_m2_s()));
  return pieceGrowth * std::max(growth, 0.3 * query.window_s);
}

/// How far back from an age the beam ran straight and evenly enough to be one way, a whole number of pulses; 0: not longer than a piece.
double PathHeat::wayBack_s(const HeatQuery& query, const Stretch& stretch, double inStretch_s, double age_s, double shortest_s,
                           double longest_s) const {
  const double spread = std::sqrt(spread_m2(query, std::max(0.0, age_s - query.window_s))), speed = m_speed + 1e-12;
  if (m_period * speed > pulsesEven * spread) return 0;  // pulses apart
  double way = std::min({oldestPiece_s(query, age_s), inStretch_s, longest_s});
  for (; way > 2 * shortest_s; way *= 0.5) {
    if (stretch.isStraight()) break;
    const Point young = stretch.at(inStretch_s), middle = stretch.at(inStretch_s - way / 2), old = stretch.at(inStretch_s - way);
    const Point along = young - old, bow = middle - 0.5 * (young + old);
    const double beside = std::abs(bow.x() * along.y() - bow.y() * along.x());
    if (!along.isZero() && beside <= mostBow * spread * along.norm() && std::abs(bow.dot(along)) <= mostUneven * along.squaredNorm()) break;
  }
  if (m_period > 0) way = m_period * std::floor(way / m_period * (1 + 1e-12));
  return way > 2 * shortest_s ? way : 0;
}

/// How far back from a time in a stretch the beam has been too far off for its light to be felt, a whole number of pulses; 0: not at all.
double PathHeat::farBack_s(const HeatQuery& query, const TourStroke& stroke, const Stretch& stretch, double inStretch_s,
                           double age_s) const {
  const Ring& ring = m_rings[static_cast<std::size_t>(&stretch - m_frame.stretches().data())];
  const double away = (query.place - stroke.middleAt(query.time_s - age_s) - ring.middle).norm();
  const double off = std::max(ring.least_m - away, away - ring.most_m) - std::abs(stroke.speed_m_s) * inStretch_s - m_speed * m_period;
  if (off <= 0 || off * off < nearby * nearby * spread_m2(query, age_s + inStretch_s)) return 0;
  return m_period > 0 ? m_period * std::floor(inStretch_s / m_period) : inStretch_s;
}

/// How far back the beam has gone round a whole circle on the part, its light of one age and even along it, a whole number of pulses; 0: it
/// has not.
double PathHeat::ringBack_s(const HeatQuery& query, const TourStroke& stroke, const Stretch& stretch, double inStretch_s,
                            double age_s) const {
  constexpr double mostOfAge = 0.5;  // of what a piece may differ in age: its parts lie in all directions
  if (!stretch.isCircle() || inStretch_s < 0.99 * stretch.duration_s || inStretch_s > mostOfAge * oldestPiece_s(query, age_s)) return 0;
  const double spread_m = std::sqrt(spread_m2(query, std::max(0.0, age_s - query.window_s)));
  if (m_period * m_speed > pulsesEven * spread_m || std::abs(stroke.speed_m_s) * inStretch_s > mostBow * spread_m) return 0;
  const Ring& ring = m_rings[static_cast<std::size_t>(&stretch - m_frame.stretches().data())];
  const Point middle = stroke.middleAt(query.time_s - age_s) + ring.middle;
  if ((middle.array() < ring.most_m).any() || (middle.array() > m_tour.part_m.array() - ring.most_m).any()) return 0;
  return m_period > 0 ? m_period * std::floor(inStretch_s / m_period) : inStretch_s;
}

/// The beam where it was, piece by piece into the past.
template <class Visit>
void PathHeat::beamPieces(const HeatQuery& query, const Span& span, Visit visit) const {
  const TourStroke& stroke = span.stroke;
  const double framePeriod = m_frame.period_s(), speed = m_speed + std::abs(stroke.speed_m_s);
  double age = span.youngest_s > 0 && span.youngest_s == query.youngest_s ? std::max(0.0, span.youngest_s - m_period / 2) : span.youngest_s;
  const Stretch* stretch = nullptr;
  double lastWay = never;  // neighbours are of much the same length
  const auto beamAt = [&](double then, double inStretch) {
    return Point(stroke.start + Point(0, stroke.speed_m_s * then) + m_turned.onPart(stretch->at(inStretch), 0));
  };
  while (age < span.oldest_s) {
    const double longest = longestPiece_s(query, age, speed, pieceLength, pieceGrowth);
    const bool single = m_period > 0 && (age < mergedFrom * m_period || longest < 2 * m_period);
    const double length = single ? m_period : m_period > 0 ? m_period * std::floor(longest / m_period) : longest;
    double next = std::min(age + length, span.oldest_s);
    const double root = std::sqrt(age), nextRoot = std::sqrt(next);
    const double middle = single ? age + m_period / 2 : 0.25 * (root + nextRoot) * (root + nextRoot);
    const double then = query.time_s - middle - stroke.clock_s;
    const double inFrame = then - framePeriod * std::floor(then / framePeriod);
    if (!stretch || inFrame < stretch->begin_s || inFrame >= stretch->begin_s + stretch->duration_s) stretch = &m_frame.stretchAt(inFrame);
    const double inStretch = inFrame - stretch->begin_s + middle - age;  // at the young end
    const double far = farBack_s(query, stroke, *stretch, inStretch, age);
    if (far > next - age) {
      age = std::min(age + far, span.oldest_s);
      continue;
    }
    if (const double ring = ringBack_s(query, stroke, *stretch, inStretch, age); ring > next - age && age + ring <= span.oldest_s) {
      HeatPiece piece{age + ring / 2, 0,   ring, beamAt(then, 0) - m_turned.onPart(stretch->at(0) - stretch->start, 0), Point::Zero(),
                      stroke.share,   ring};
      piece.ring_m = stretch->swing.x();
      if (stretch->lit) visit(piece);
      age += ring;
      continue;
    }
    const double way = single && query.window_s == 0 ? 0 : wayBack_s(query, *stretch, inStretch, age, length, 2 * lastWay);
    if (way > 0) next = std::min(age + way, span.oldest_s);
    lastWay = way > 0 ? way : never;
    if (way > 0 && stretch->lit) {
      const double half = 0.5 * (next - age);
      const Point young = beamAt(then + middle - age, inStretch), old = beamAt(then + middle - next, inStretch - 2 * half);
      const Point mean = stretch->isStraight() ? Point(0.5 * (young + old))
                                               : Point((young + old + 4 * beamAt(then + middle - age - half, inStretch - half)) / 6);
      visit(HeatPiece{age + half, 0, next - age, mean, Point::Zero(), stroke.share, 0, young - old, next - age});
    } else if (stretch->lit) {
      visit(HeatPiece{middle, single ? m_period / std::sqrt(middle) : 2 * (nextRoot - root), single ? m_period : next - age,
                      beamAt(then, inFrame - stretch->begin_s), Point::Zero(), stroke.share});
    }
    age = next;
  }
}

/// Lines smeared, frame by frame.
template <class Visit>
void PathHeat::rowPieces(const HeatQuery& query, const Span& span, Visit visit) const {
  const TourStroke& stroke = span.stroke;
  const double period = m_boxes.period_s, now = query.time_s - stroke.clock_s;
  const Point hand(0, stroke.speed_m_s);
  for (double frame = std::floor((now - span.youngest_s) / period); (frame + 1) * period > now - span.oldest_s; --frame) {
    for (const LightBox& row : m_boxes.rows) {
      const double begin = frame * period + row.begin_s;
      const double oldest = std::min(span.oldest_s, now - begin);
      const Point velocity = row.velocity + hand;
      const double speed = velocity.norm();
      double age = std::max(span.youngest_s, now - begin - row.duration_s);
      while (age < oldest) {
        double piece = longestPiece_s(query, age, speed, pairLength, pairGrowth);
        const bool way = velocity.x() == 0 && row.size.y() * row.size.y() <= spread_m2(query, age) && oldestPiece_s(query, age) > piece;
        const Point from = stroke.start + hand * (now - age) + row.middle + row.velocity * (now - age - begin);
        if (way)
          piece = oldestPiece_s(query, age);
        else if (crossesEdge(from, from - velocity * piece, row.size, m_tour.part_m))
          piece = std::min(piece, std::max(row.interval_s, endPiece * piece));
        const double next = std::min(age + piece, oldest);
        const auto at = [&](double then) { return Point(from - velocity * (then - age)); };
        if (way)
          visit(HeatPiece{0.5 * (age + next), 0, next - age, at(0.5 * (age + next)), row.size, stroke.share * row.share,
                          m_boxes.rowInterval_s, velocity * (next - age), next - age});
        else
          eachOfPair(age, next, [&](double then, double root, double duration) {
            visit(HeatPiece{then, root, duration, at(then), row.size, stroke.share * row.share, m_boxes.rowInterval_s});
          });
        age = next;
      }
    }
  }
}

/// Frames smeared evenly under the moving hand.
template <class Visit>
void PathHeat::framePieces(const HeatQuery& query, const Span& span, Visit visit) const {
  const TourStroke& stroke = span.stroke;
  const bool coarse = query.finest == Smear::Frames;
  double age = span.youngest_s;
  const auto box = [&](const LightBox& light, double middle, double root, double duration) {
    const Point at = stroke.middleAt(query.time_s - middle) + light.middle;
    visit(HeatPiece{middle, root, duration, at, light.size, stroke.share * light.share, m_boxes.period_s});
  };
  while (age < span.oldest_s) {
    double piece = longestPiece_s(query, age, std::abs(stroke.speed_m_s), pairLength, pairGrowth);
    const Point offset = m_boxes.all.middle, size = m_boxes.all.size;
    if (passesEnd(stroke.middleAt(query.time_s - age) + offset, stroke.middleAt(query.time_s - age - piece) + offset, size,
                  m_tour.part_m.y()))
      piece = std::min(piece, std::max(endPiece * size.y() / std::max(std::abs(stroke.speed_m_s), 1e-12), 0.25 * piece));
    const double next = std::min(age + piece, span.oldest_s);
    eachOfPair(age, next, [&](double then, double root, double duration) {
      if (coarse || spread_m2(query, then) >= m_oneBoxFrom_m2)
        box(m_boxes.all, then, root, duration);
      else
        for (const LightBox& light : m_boxes.whole) box(light, then, root, duration);
    });
    age = next;
  }
}

/// Age from which lines are smeared: whole ones of the row that is then the brightest, so that no half of one is spread over all of it.
double PathHeat::rowsFrom(const HeatQuery& query, const TourStroke& stroke, double age_s) const {
  if (std::isinf(age_s)) return age_s;
  const double then = query.time_s - age_s - stroke.clock_s, inFrame = then - m_boxes.period_s * std::floor(then / m_boxes.period_s);
  const LightBox* brightest = nullptr;
  for (const LightBox& row : m_boxes.rows) {
    if (inFrame < row.begin_s || inFrame > row.begin_s + row.duration_s) continue;
    if (!brightest || row.share > brightest->share) brightest = &row;
  }
  return brightest ? age_s + std::fmod(inFrame - brightest->begin_s, brightest->interval_s) : age_s + inFrame;
}

/// Age from which frames are smeared: whole ones, none that the stroke's end cut off.
double PathHeat::framesFrom(const HeatQuery& query, const TourStroke& stroke, double age_s) const {
  const double until = std::min(query.time_s - age_s, stroke.end_s) - stroke.clock_s;
  return query.time_s - stroke.clock_s - m_boxes.period_s * std::floor(until / m_boxes.period_s);
}

template <class Visit>
void PathHeat::eachPiece(const HeatQuery& query, Visit visit) const {
  const double fromRows = m_boxes.hasRows && query.finest == Smear::Lines ? 0 : m_fromRows_s + query.window_s;
  const double fromFrames = query.finest == Smear::Frames ? 0 : m_fromFrames_s + query.window_s;
  const double latest = query.time_s - query.youngest_s;
  auto after = std::ranges::upper_bound(m_tour.strokes, latest, {}, &TourStroke::begin_s);
  while (after != m_tour.strokes.begin()) {
    --after;
    const TourStroke stroke = shifted(*after, query.frames.of_s(static_cast<std::size_t>(after - m_tour.strokes.begin())));
    if (query.time_s - stroke.end_s >= m_oldest) break;
    const double youngest = std::max(query.youngest_s, query.time_s - stroke.end_s);
    const double oldest = std::min(m_oldest, query.time_s - stroke.begin_s);
    const auto within = [&](double from, double to) { return Span{stroke, std::max(youngest, from), std::min(oldest, to)}; };
    const double frames = fromFrames > 0 ? framesFrom(query, stroke, fromFrames) : 0;
    const double rows = std::min(fromRows > 0 ? rowsFrom(query, stroke, fromRows) : 0, frames);
    if (const Span span = within(0, rows); span.youngest_s < span.oldest_s) beamPieces(query, span, visit);
    if (const Span span = within(rows, frames); span.youngest_s < span.oldest_s) rowPieces(query, span, visit);
    if (const Span span = within(frames, never); span.youngest_s < span.oldest_s) framePieces(query, span, visit);
  }
}

PieceKernel PathHeat::kernelOf(const HeatQuery& query) const {
  return {m_plate,
          m_tour.part_m,
          query.place,
          m_radius * m_radius / 4 + query.patchVariance_m2,
          query.spreading * m_plate.diffusivity_m2_s(),
          query.window_s};
}

FacesRise PathHeat::rise_K_W(const HeatQuery& query) const {
  const PieceKernel kernel = kernelOf(query);
  FacesRise rise;
  rise.spreading = query.spreading;
  eachPiece(query, [&](const HeatPiece& piece) {
    const FacesRise more = kernel.faces_K_W(piece);
    rise.front_K += more.front_K;
    rise.back_K += more.back_K;
  });
  return rise;
}

double PathHeat::evenRise_K_W(const HeatQuery& query) const {
  HeatQuery even = query;
  even.youngest_s = 0;
  even.finest = Smear::Frames;
  even.throughMean = true;
  const PieceKernel kernel = kernelOf(even);
  double rise = 0;
  eachPiece(even, [&](const HeatPiece& piece) { rise += kernel.mean_K_W(piece); });
  return rise;
}

double PathHeat::riseAtDepth_K_W(const HeatQuery& query) const {
  const PieceKernel kernel = kernelOf(query);
  double rise = 0;
  eachPiece(query, [&](const HeatPiece& piece) { rise += kernel.atDepth_K_W(piece, query.depth_m); });
  return rise;
}

void PathHeat::addMeans_K_W(double time_s, int across, int along, const Point& cell_m, std::vector<double>& rise) const {
  HeatQuery query;
  query.time_s = time_s;
  query.finest = Smear::Frames;
  query.throughMean = true;
  query.patchVariance_m2 = cell_m.squaredNorm() / 24;  // of a cell's own extent, per axis
  std::vector<double> shares(static_cast<std::size_t>(across));
  eachPiece(query, [&](const HeatPiece& piece) {
    const double variance = spread_m2(query, piece.age_s), reach = std::sqrt(40 * variance);
    const auto from = [&](double middle, double size, double cell, int count) {
      return std::clamp(static_cast<int>((middle - size / 2 - reach) / cell), 0, count);
    };
    const auto to = [&](double middle, double size, double cell, int count) {
      return std::clamp(static_cast<int>((middle + size / 2 + reach) / cell) + 1, 0, count);
    };
    const int i0 = from(piece.middle.x(), piece.size.x(), cell_m.x(), across),
              i1 = to(piece.middle.x(), piece.size.x(), cell_m.x(), across);
    const int j0 = from(piece.middle.y(), piece.size.y(), cell_m.y(), along), j1 = to(piece.middle.y(), piece.size.y(), cell_m.y(), along);
    for (int i = i0; i < i1; ++i)
      shares[static_cast<std::size_t>(i)] =
          blurredShare_1_m((i + 0.5) * cell_m.x(), piece.middle.x(), piece.size.x(), variance, m_tour.part_m.x());
    const double even = piece.share * piece.duration_s * std::exp(-m_plate.lossRate_1_s() * piece.age_s) /
                        (m_plate.heatCapacity_J_m3K * m_plate.thickness_m);
    for (int j = j0; j < j1; ++j) {
      const double here = even * blurredShare_1_m((j + 0.5) * cell_m.y(), piece.middle.y(), piece.size.y(), variance, m_tour.part_m.y());
      double* row = rise.data() + static_cast<std::ptrdiff_t>(j) * across;
      for (int i = i0; i < i1; ++i) row[i] += here * shares[static_cast<std::size_t>(i)];
    }
  });
}

double PathHeat::bound_K_W(const HeatQuery& query) const {
  double bound = 0;
  const double alpha = query.spreading * m_plate.diffusivity_m2_s(), L = m_plate.thickness_m;
  eachPiece(query, [&](const HeatPiece& piece) {
    HeatQuery under = query;
    under.place = piece.middle;
    const double variance = spread_m2(query, piece.age_s);
    const double crossing = alpha * piece.age_s > 0.7 * L * L ? 0 : piece.duration_s / std::max(piece.age_s, 0.01 * L * L / alpha);
    const double growth = std::max(2 * alpha * piece.duration_s / variance, crossing);
    const double rounding = 3.75 / 24 * growth * growth;
    const double smearing = 1.5 * piece.forgotten_s / (4 * std::max(piece.age_s, piece.forgotten_s / 4));
    const double shape = piece.forgotten_s == m_boxes.period_s && piece.forgotten_s > 0
                             ? (variance < m_oneBoxFrom_m2 ? m_boxes.wholeWrong : m_boxes.allWrong).at(variance)
                             : 0;
    bound += (rounding + smearing + shape) * kernelOf(under).faces_K_W(piece).front_K;
  });
  return bound;
}

int PathHeat::pieces(const HeatQuery& query) const {
  int count = 0;
  eachPiece(query, [&](const HeatPiece&) { ++count; });
  return count;
}

}  // namespace bw
