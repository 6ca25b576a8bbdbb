// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/quantiles.h"
#include "tests/support/catch.h"

// Tables of Student's t and of chi square in any textbook; from memory, and the same by scipy.stats 1.10.
TEST_CASE("Quantiles are those of the tables", "[learn]") {
  CHECK(bw::nineInTen() == Catch::Approx(1.644854).epsilon(1e-6));
  CHECK(bw::nineInTenByScatter(1) == Catch::Approx(6.313752).epsilon(1e-6));
  CHECK(bw::nineInTenByScatter(4) == Catch::Approx(2.131847).epsilon(1e-6));
  CHECK(bw::nineInTenByScatter(1000000) == Catch::Approx(1.644854).epsilon(1e-5));
  CHECK(bw::largestChiSquare(3) == Catch::Approx(7.814728).epsilon(1e-6));
  CHECK(bw::largestT(4, 20) == Catch::Approx(2.776445).epsilon(1e-6));
}
