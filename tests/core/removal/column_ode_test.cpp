// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"
#include "tests/support/cells_as_ode.h"

using namespace bw;
using namespace bw::test;

// The column's time steps against a stiff integrator of the GNU Scientific Library on the same cells: the same differences in depth, but
// the library's own control of steps, temperatures instead of enthalpies, and curves evaluated where the column uses its table.

TEST_CASE("The column's temperatures are those of a stiff integrator on the same cells", "[removal]") {
  const HeatedCells heated;
  const std::vector<LightPiece> light = heated.pulses(4, 10e-6, 0.25);
  Column column(heated.layers, ColumnMetal(heated.metal, heated.start_C), heated.thickness_m, {}, ColumnSettings::fine());
  CellsAsOde ode(heated, column.cells());

  double now = 0, worst = 0, highest = 0;
  const auto compare = [&] {
    for (std::size_t i = 0; i < column.cells().size(); ++i) {
      worst = std::max(worst, std::abs(column.rise_K(i) - ode.rise_K(i)));
      highest = std::max(highest, column.rise_K(i));
    }
  };
  for (const LightPiece& piece : light) {
    column.rest(piece.from_s - now);
    ode.advance(0, piece.from_s - now, 1e-7);
    compare();
    column.shine(piece.irradiance_W_m2 * piece.duration_s, piece.duration_s);
    ode.advance(piece.irradiance_W_m2, piece.duration_s, 1e-7);
    now = piece.from_s + piece.duration_s;
    compare();
  }
  column.rest(1e-3);
  ode.advance(0, 1e-3, 1e-7);
  compare();
  CHECK(column.depth_m() == 0);  // nothing but heat
  CHECK(highest > 100);
  INFO("at most " << worst << " K apart, of " << highest << " K");
  CHECK(worst < 1e-3 * highest);
}
