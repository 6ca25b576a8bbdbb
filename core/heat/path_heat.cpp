// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/path_heat.h"

#include "core/heat/blurred_strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double never = std::numeric_limits<double>::infinity();
constexpr double pieceLength = 0.7;     // of the blurred spot
constexpr double pieceGrowth = 0.1;     // of its variance, while a piece ages
constexpr double endPiece = 0.07;      // of the frame's size: of its way over an end of the part, at a time
constexpr double framePiece = 0.7;     // of those: whole frames, which come and go at the part's ends, are cheap to follow closely
constexpr double firstPiece = 0.15;     // of a full one; then as long as the age, up to a full one
constexpr double mergedFrom = 4;        // pulse periods: younger pulses are taken one by one
constexpr double intervalsOld = 10;  // that lines and frames are when they are smeared
constexpr double mostMisshapen = 0.01;  // of a peak, by one box in place of a frame
constexpr double evenFrom = 0.25;       // alpha t/L^2: images before, cosines from there on (both right to 1e-7)

double topSpeed(const Frame& frame) {
  double speed = 0;
  for (const Stretch& stretch : frame.stretches()) speed = std::max(speed, stretch.topSpeed_m_s());
  return speed;
}

double misshapen(const FrameBoxes& boxes, double variance_m2) {
  const double s = std::sqrt(variance_m2);
  return boxes.skew_m3 / (s * s * s) + boxes.bulge_m4 / (variance_m2 * variance_m2) + boxes.slant_m2 / variance_m2;
}

/// Whether a box that moves from one middle to another goes over an edge of the part: then only short pieces of its way have one share on it.
bool crossesEdge(const Point& from, const Point& to, const Point& size, const Point& part) {
  const Point low = from.cwiseMin(to) - size / 2, high = from.cwiseMax(to) + size / 2;
  return (low.array() < 0).any() || (high.array() > part.array()).any();
}

/// Age at which a spot of that radius has spread to a variance.
double ageAt(double variance_m2, double radius_m, double diffusivity) {
  return std::max(0.0, (variance_m2 - radius_m * radius_m / 4) / (2 * diffusivity));
}

double smearFramesFrom(const FrameBoxes& boxes, double radius_m, double diffusivity) {
  double variance = 1e-12;
  while (misshapen(boxes, variance) > mostMisshapen && variance < 1) variance *= 1.2;
  return std::max(intervalsOld * boxes.period_s, ageAt(std::max(variance, boxes.rowGap_m * boxes.rowGap_m), radius_m, diffusivity));
}

}  // namespace

struct PathHeat::Piece {
  double age_s;
  double root;  // integral of 1/sqrt(age)
  double duration_s;
  Point middle;
  Point size;  // of a box; zero for the beam itself
  double share;
  double forgotten_s;  // interval within which it is not told when the light came
};

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
  const double alpha = plate.diffusivity_m2_s();
  m_fromFrames_s = smearFramesFrom(m_boxes, spotRadius_m, alpha);
  m_fromRows_s = m_boxes.hasRows
                     ? std::max(intervalsOld * m_boxes.rowInterval_s, ageAt(m_boxes.rowGap_m * m_boxes.rowGap_m, spotRadius_m, alpha))
                     : never;
}

double PathHeat::spread_m2(const HeatQuery& query, double age_s) const {
  return m_radius * m_radius / 4 + query.patchVariance_m2 + 2 * query.spreading * m_plate.diffusivity_m2_s() * age_s;
}

double PathHeat::longestPiece_s(const HeatQuery& query, double age_s, double speed_m_s) const {
  const double alpha = query.spreading * m_plate.diffusivity_m2_s(), L = query.depth_m > 0 ? query.depth_m : m_plate.thickness_m;
  const double variance = spread_m2(query, age_s);
  double full = std::min(pieceLength * std::sqrt(variance) / std::max(speed_m_s, 1e-12), pieceGrowth * variance / (2 * alpha));
  if (alpha * age_s < 0.7 * L * L || query.depth_m > 0) full = std::min(full, pieceGrowth * std::max(age_s, 0.01 * L * L / alpha));
  return std::min(full, std::max(firstPiece * full, age_s));
}

/// The beam where it was, piece by piece into the past.
template <class Visit>
void PathHeat::beamPieces(const HeatQuery& query, const Span& span, Visit visit) const {
  const TourStroke& stroke = span.stroke;
  const double framePeriod = m_frame.period_s(), speed = m_speed + std::abs(stroke.speed_m_s);
  double age = span.youngest_s > 0 && span.youngest_s == query.youngest_s ? std::max(0.0, span.youngest_s - m_period / 2) : span.youngest_s;
  const Stretch* stretch = nullptr;
  while (age < span.oldest_s) {
    const double longest = longestPiece_s(query, age, speed);
    const bool single = m_period > 0 && (age < mergedFrom * m_period || longest < 2 * m_period);
    const double length = single ? m_period : m_period > 0 ? m_period * std::floor(longest / m_period) : longest;
    const double next = std::min(age + length, span.oldest_s);
    const double root = std::sqrt(age), nextRoot = std::sqrt(next);
    const double middle = single ? age + m_period / 2 : 0.25 * (root + nextRoot) * (root + nextRoot);
    const double then = query.time_s - middle - stroke.clock_s;
    const double inFrame = then - framePeriod * std::floor(then / framePeriod);
    if (!stretch || inFrame < stretch->begin_s || inFrame >= stretch->begin_s + stretch->duration_s) stretch = &m_frame.stretchAt(inFrame);
    if (stretch->lit) {
      const Point beam = stroke.start + Point(0, stroke.speed_m_s * then) + m_turned.onPart(stretch->at(inFrame - stretch->begin_s), 0);
      visit(Piece{middle, single ? m_period / std::sqrt(middle) : 2 * (nextRoot - root), single ? m_period : next - age, beam,
                  Point::Zero(), stroke.share, 0});
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
      const double oldest = std::min(span.oldest_s, now - begin), speed = (row.velocity + hand).norm();
      double age = std::max(span.youngest_s, now - begin - row.duration_s);
      while (age < oldest) {
        double piece = longestPiece_s(query, age, speed);
        const Point from = stroke.start + hand * (now - age) + row.middle + row.velocity * (now - age - begin);
        if (crossesEdge(from, from - (row.velocity + hand) * piece, row.size, m_tour.part_m))
          piece = std::min(piece, std::max(row.interval_s, endPiece * piece));
        const double next = std::min(age + piece, oldest);
        const double root = std::sqrt(age), nextRoot = std::sqrt(next), middle = 0.25 * (root + nextRoot) * (root + nextRoot);
        const Point at = stroke.start + hand * (now - middle) + row.middle + row.velocity * (now - middle - begin);
        visit(Piece{middle, 2 * (nextRoot - root), next - age, at, row.size, stroke.share * row.share, m_boxes.rowInterval_s});
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
    visit(Piece{middle, root, duration, at, light.size, stroke.share * light.share, m_boxes.period_s});
  };
  while (age < span.oldest_s) {
    double piece = framePiece * longestPiece_s(query, age, std::abs(stroke.speed_m_s));
    const Point offset = m_boxes.all.middle, size = m_boxes.all.size;
    if (passesEnd(stroke.middleAt(query.time_s - age) + offset, stroke.middleAt(query.time_s - age - piece) + offset, size, m_tour.part_m.y()))
      piece = std::min(piece, std::max(endPiece * size.y() / std::max(std::abs(stroke.speed_m_s), 1e-12), 0.25 * piece));
    const double next = std::min(age + piece, span.oldest_s);
    const double root = std::sqrt(age), nextRoot = std::sqrt(next), middle = 0.25 * (root + nextRoot) * (root + nextRoot);
    if (coarse)
      box(m_boxes.all, middle, 2 * (nextRoot - root), next - age);
    else
      for (const LightBox& light : m_boxes.whole) box(light, middle, 2 * (nextRoot - root), next - age);
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
  const double fromRows = m_boxes.hasRows && query.finest == Smear::Lines ? 0 : m_fromRows_s;
  const double fromFrames = query.finest == Smear::Frames ? 0 : m_fromFrames_s;
  const double latest = query.time_s - query.youngest_s;
  auto after = std::ranges::upper_bound(m_tour.strokes, latest, {}, &TourStroke::begin_s);
  while (after != m_tour.strokes.begin()) {
    const TourStroke& stroke = *--after;
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

/// Integral over the piece of what one joule a square metre on the face gives at a depth.
double PathHeat::depthKernel(const HeatQuery& query, const Piece& piece, double depth_m) const {
  const double L = m_plate.thickness_m, alpha = query.spreading * m_plate.diffusivity_m2_s(), fourier = alpha * piece.age_s / (L * L);
  const double air = std::exp(-m_plate.lossRate_1_s() * piece.age_s);
  if (fourier > evenFrom) {
    const double z = pi * depth_m / L, decay = std::exp(-pi * pi * fourier);
    const double even = 1 + 2 * decay * std::cos(z) + 2 * decay * decay * decay * decay * std::cos(2 * z);
    return air * even * piece.duration_s / (m_plate.heatCapacity_J_m3K * L);
  }
  const double spread = 4 * alpha * piece.age_s;
  double images = 0;
  for (int m = -2; m <= 2; ++m) {
    const double z = depth_m - 2 * m * L;
    if (z == 0)
      images += 1;
    else if (z * z < 40 * spread)
      images += std::exp(-z * z / spread);
  }
  return air * images * 2 * piece.root / (m_plate.heatCapacity_J_m3K * std::sqrt(4 * pi * alpha));
}

/// Share of the piece's energy that arrives per square metre at the place.
double PathHeat::placeKernel(const HeatQuery& query, const Piece& piece) const {
  const double variance = spread_m2(query, piece.age_s);
  const double across = blurredShare_1_m(query.place.x(), piece.middle.x(), piece.size.x(), variance, m_tour.part_m.x());
  return across > 0 ? across * blurredShare_1_m(query.place.y(), piece.middle.y(), piece.size.y(), variance, m_tour.part_m.y()) : 0;
}

FacesRise PathHeat::rise_K_W(const HeatQuery& query) const {
  FacesRise rise;
  rise.spreading = query.spreading;
  eachPiece(query, [&](const Piece& piece) {
    const double here = piece.share * placeKernel(query, piece);
    if (here <= 0) return;
    rise.front_K += here * depthKernel(query, piece, 0);
    rise.back_K += here * depthKernel(query, piece, m_plate.thickness_m);
  });
  return rise;
}

double PathHeat::evenRise_K_W(const HeatQuery& query) const {
  HeatQuery even = query;
  even.youngest_s = 0;
  even.finest = Smear::Frames;
  double rise = 0;
  eachPiece(even, [&](const Piece& piece) {
    rise += piece.share * placeKernel(even, piece) * piece.duration_s * std::exp(-m_plate.lossRate_1_s() * piece.age_s);
  });
  return rise / (m_plate.heatCapacity_J_m3K * m_plate.thickness_m);
}

double PathHeat::riseAtDepth_K_W(const HeatQuery& query) const {
  double rise = 0;
  eachPiece(query, [&](const Piece& piece) {
    const double here = piece.share * placeKernel(query, piece);
    if (here > 0) rise += here * depthKernel(query, piece, query.depth_m);
  });
  return rise;
}

void PathHeat::addMeans_K_W(double time_s, int across, int along, const Point& cell_m, std::vector<double>& rise) const {
  HeatQuery query;
  query.time_s = time_s;
  query.finest = Smear::Frames;
  query.patchVariance_m2 = cell_m.squaredNorm() / 24;  // of a cell's own extent, per axis
  std::vector<double> shares(static_cast<std::size_t>(across));
  eachPiece(query, [&](const Piece& piece) {
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
  eachPiece(query, [&](const Piece& piece) {
    HeatQuery under = query;
    under.place = piece.middle;
    const double variance = spread_m2(query, piece.age_s);
    const double crossing = alpha * piece.age_s > 0.7 * L * L ? 0 : piece.duration_s / std::max(piece.age_s, 0.01 * L * L / alpha);
    const double growth = std::max(2 * alpha * piece.duration_s / variance, crossing);
    const double rounding = 3.75 / 24 * growth * growth;
    const double smearing = 1.5 * piece.forgotten_s / (4 * std::max(piece.age_s, piece.forgotten_s / 4));
    const double shape = piece.forgotten_s == m_boxes.period_s && piece.forgotten_s > 0 ? misshapen(m_boxes, variance) : 0;
    bound += (rounding + smearing + shape) * piece.share * placeKernel(under, piece) * depthKernel(query, piece, 0);
  });
  return bound;
}

int PathHeat::pieces(const HeatQuery& query) const {
  int count = 0;
  eachPiece(query, [&](const Piece&) { ++count; });
  return count;
}

}  // namespace bw
