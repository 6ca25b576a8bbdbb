// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/isolines.h"

#include "tests/support/catch.h"
#include "ui/plots/tiled_map.h"

#include <cmath>
#include <functional>

using namespace bw;
using Catch::Approx;

namespace {

/// 40 x 30 mm in cells of 0.5 mm, the dose given in millimetres from its beginning.
DoseMap mapOf(const std::function<double(double, double)>& dose) {
  DoseMap map{80, 60, 0.5e-3, 0.5e-3, 0, 0, {}};
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column)
      map.dose_J_m2.push_back(static_cast<float>(dose((column + 0.5) / 2, (row + 0.5) / 2)));
  return map;
}

const Isoline& lineOf(const std::vector<Isoline>& lines, double share) {
  for (const Isoline& line : lines)
    if (line.share == share) return line;
  FAIL("no such line");
  return lines.front();
}

double lengthOf(const Isoline& line) {
  double sum = 0;
  for (const QLineF& piece : line.pieces) sum += piece.length();
  return sum;
}

}  // namespace

TEST_CASE("Lines of equal dose on a plane are straight and where the plane has that dose", "[isolines]") {
  const auto lines = isolinesOf(mapOf([](double x, double) { return x; }), {}, 10);
  for (const double share : {0.5, 1.0, 1.5, 2.0}) {
    const Isoline& line = lineOf(lines, share);
    REQUIRE_FALSE(line.pieces.isEmpty());
    for (const QLineF& piece : line.pieces) {
      CHECK(piece.x1() == Approx(10 * share));
      CHECK(piece.x2() == Approx(10 * share));
    }
    CHECK(lengthOf(line) == Approx(29.5));  // from the first row of middles to the last
  }
}

TEST_CASE("Lines of equal dose on a cone are circles", "[isolines]") {
  const auto lines = isolinesOf(mapOf([](double x, double y) { return 20 - std::hypot(x - 20, y - 15); }), {}, 10);
  const Isoline& line = lineOf(lines, 1);
  for (const QLineF& piece : line.pieces)
    CHECK(std::hypot(piece.x1() - 20, piece.y1() - 15) == Approx(10).margin(0.02));  // chords of 0.5 mm cells
  CHECK(lengthOf(line) == Approx(2 * M_PI * 10).epsilon(0.005));
  CHECK(lineOf(lines, 2).pieces.isEmpty());  // touches the tip only
}

TEST_CASE("Where a map repeats its lines go on over the border", "[isolines]") {
  const DoseMap map = mapOf([](double, double y) { return y < 15 ? 5 : 15; });
  CHECK(lengthOf(lineOf(isolinesOf(map, {}, 10), 1)) == Approx(39.5));
  CHECK(lengthOf(lineOf(isolinesOf(map, {0, 0, true, true}, 10), 1)) == Approx(2 * 40));  // the step back up lies on the border
}

TEST_CASE("A fine map is thinned, and keeps its lines where they were", "[isolines]") {
  DoseMap map{2000, 900, 20e-6, 20e-6, 0, 0, {}};
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column) map.dose_J_m2.push_back(static_cast<float>((column + 0.5) * 0.02));
  const Isoline line = lineOf(isolinesOf(map, {}, 10), 1);
  CHECK(line.pieces.size() < 300);
  for (const QLineF& piece : line.pieces) CHECK(piece.x1() == Approx(10).epsilon(1e-3));
}

TEST_CASE("Scan lines are smoothed away, what they carry is kept", "[isolines]") {
  DoseMap map{2000, 900, 20e-6, 20e-6, 0, 0, {}};  // lines 80 micrometres apart on a slope across
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column)
      map.dose_J_m2.push_back(static_cast<float>((column + 0.5) * 0.02 * (row % 4 < 2 ? 1.6 : 0.4)));
  const Isoline line = lineOf(isolinesOf(map, {0, 0, false, true}, 10), 1);
  REQUIRE_FALSE(line.pieces.isEmpty());
  for (const QLineF& piece : line.pieces) CHECK(piece.x1() == Approx(10).margin(0.15));  // a smoothing length
}

TEST_CASE("A line that nobody could follow is left out", "[isolines]") {
  const DoseMap noise{300, 300, 1e-4, 1e-4, 0, 0, [] {
                        std::vector<float> dose;
                        for (int i = 0; i < 90000; ++i)
                          dose.push_back(i % 300 / 3 % 2 == i / 900 % 2 ? 2.0F : 18.0F);  // a chequer of 3 x 3 cells
                        return dose;
                      }()};
  const auto lines = isolinesOf(noise, {}, 10);
  CHECK(lineOf(lines, 1).pieces.isEmpty());
}

TEST_CASE("A line says how far apart its runs are, so that one too fine for the screen can be left out", "[isolines]") {
  const auto lines = isolinesOf(mapOf([](double x, double) { return x; }), {}, 10);
  CHECK(lineOf(lines, 1).apart_mm == Approx(40.0 * 30 / 29.5));
  CHECK(lineOf(isolinesOf(mapOf([](double, double) { return 1; }), {}, 10), 1).apart_mm == 0);
}
