// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/frame.h"

#include "tests/core/scan/frame_by_rule.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <vector>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

constexpr Pattern drawn[] = {Pattern::Line, Pattern::Sine, Pattern::Raster, Pattern::Crossed};

struct Variant {
  bool oneWay;
  double trim_m;
  bool offInTurns;
  double turnaround_s;
};

const std::vector<Variant> variants = {{false, 0, false, 231e-6},   {false, 0, true, 231e-6}, {false, 0.4e-3, false, 231e-6},
                                       {true, 0, false, 231e-6},    {true, 0.4e-3, true, 90e-6}, {false, 0, false, 0},
                                       {true, 0.3e-3, false, 0},    {false, 0.2e-3, true, 0}};

Settings with(Settings settings, const Variant& variant) {
  settings.oneWay = variant.oneWay;
  settings.edgeTrim_m = variant.trim_m;
  settings.beamOffInTurns = variant.offInTurns;
  return settings;
}

Point endOf(const Stretch& stretch) { return stretch.at(stretch.duration_s); }

double farthestLit(const Frame& frame) {
  double x = 0;
  for (const Stretch& stretch : frame.stretches()) {
    for (int i = 0; i <= 200 && stretch.lit; ++i) x = std::max(x, std::abs(stretch.at(stretch.duration_s * i / 200).x()));
  }
  return x;
}

}  // namespace

TEST_CASE("Frames follow the rules of the file format at every time", "[scan]") {
  for (const Pattern pattern : drawn) {
    for (const Variant& variant : variants) {
      const Settings settings = with(smallFrame(pattern), variant);
      const Frame frame = buildFrame(settings, headWith(variant.turnaround_s));
      const FrameByRule rule(settings, variant.turnaround_s);
      CAPTURE(static_cast<int>(pattern), variant.oneWay, variant.trim_m, variant.offInTurns, variant.turnaround_s);
      REQUIRE(frame.period_s() == Approx(rule.period_s()).epsilon(1e-12));
      double farthest = 0;
      int wrong = 0, lit = 0;
      constexpr int samples = 20011;
      for (int i = 0; i < samples; ++i) {
        const double t = frame.period_s() * (i + 0.37) / samples;
        const Stretch& stretch = frame.stretchAt(t);
        const Beam beam = rule.at(t);
        farthest = std::max(farthest, (stretch.at(t - stretch.begin_s) - beam.at).norm());
        wrong += stretch.lit != beam.lit ? 1 : 0;
        lit += beam.lit ? 1 : 0;
      }
      CHECK(farthest < 1e-12);
      CHECK(wrong == 0);
      CHECK(frame.litFraction() == Approx(static_cast<double>(lit) / samples).margin(2e-3));
    }
  }
}

TEST_CASE("A raster has floor(height/spacing + 1e-9) + 1 lines", "[scan]") {
  struct Row {
    double height_m, spacing_m;
    int lines;
  };
  const Row row = GENERATE(Row{14e-3, 0.08e-3, 176}, Row{1e-3, 0.1e-3, 11}, Row{0.3e-3, 0.1e-3, 4}, Row{0, 0.1e-3, 1},
                           Row{0.05e-3, 0.1e-3, 1}, Row{0.0999e-3, 0.1e-3, 1}, Row{0.7e-3, 0.1e-3, 8});
  Settings settings = smallFrame(Pattern::Raster);
  settings.height_m = row.height_m;
  settings.lineSpacing_m = row.spacing_m;
  settings.beamOffInTurns = true;
  const Frame frame = buildFrame(settings, headWith(250e-6));
  CAPTURE(row.height_m, row.spacing_m);
  CHECK(std::ranges::count_if(frame.stretches(), &Stretch::lit) == row.lines);
  CHECK(frame.period_s() == Approx(row.lines * (settings.width_m / settings.scanSpeed_m_s + 250e-6)));
  CHECK(static_cast<double>(frame.stretches().size()) <= stretchCount(settings));
}

TEST_CASE("The beam never jumps inside a frame, but between the halves of a crossed one", "[scan]") {
  for (const Pattern pattern : drawn) {
    for (const Variant& variant : variants) {
      if (variant.turnaround_s == 0) continue;  // an ideal head does jump to the next line
      const auto stretches = buildFrame(with(smallFrame(pattern), variant), headWith(variant.turnaround_s)).stretches();
      int jumps = 0;
      for (std::size_t i = 1; i < stretches.size(); ++i) {
        jumps += (endOf(stretches[i - 1]) - stretches[i].at(0)).norm() > 1e-12 ? 1 : 0;
        CHECK(stretches[i].begin_s == Approx(stretches[i - 1].begin_s + stretches[i - 1].duration_s));
      }
      CAPTURE(static_cast<int>(pattern), variant.oneWay, variant.trim_m);
      CHECK(jumps == (pattern == Pattern::Crossed ? 1 : 0));
    }
  }
}

TEST_CASE("A turn overshoots by speed times turnaround over four", "[scan]") {
  const double turnaround_s = GENERATE(0.0, 100e-6, 250e-6);
  for (const Pattern pattern : {Pattern::Line, Pattern::Raster}) {
    Settings settings = smallFrame(pattern);
    const double overshoot = settings.scanSpeed_m_s * turnaround_s / 4;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2 + overshoot));
    settings.beamOffInTurns = true;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2));
    settings.edgeTrim_m = 0.5e-3;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2 - 0.5e-3));
  }
}

TEST_CASE("Share of the time that is lit", "[scan]") {
  Settings settings = smallFrame(Pattern::Raster);
  const double T = 250e-6, line = settings.width_m / settings.scanSpeed_m_s;
  const auto share = [&] { return buildFrame(settings, headWith(T)).litFraction(); };
  CHECK(share() == Approx(1));
  settings.beamOffInTurns = true;
  CHECK(share() == Approx(line / (line + T)));
  settings.edgeTrim_m = 0.5e-3;
  CHECK(share() == Approx((line - 1e-3 / settings.scanSpeed_m_s) / (line + T)));
  settings.oneWay = true;
  CHECK(share() == Approx((line - 1e-3 / settings.scanSpeed_m_s) / (2 * (line + T))));
  settings.edgeTrim_m = 0;
  settings.beamOffInTurns = false;  // the turns of a one-way raster are part of the return: dark
  CHECK(share() == Approx(line / (2 * (line + T))));
  settings.edgeTrim_m = settings.width_m;  // nothing is left of a line
  CHECK(share() == 0);
}

TEST_CASE("A trimmed sine is lit for (2/pi) asin(1 - 2 trim/width) of its time", "[scan]") {
  Settings settings = smallFrame(Pattern::Sine);
  for (const double trim_m : {0.0, 0.3e-3, 1e-3, 3.05e-3}) {
    settings.edgeTrim_m = trim_m;
    const double expected = 2 / std::numbers::pi * std::asin(1 - 2 * trim_m / settings.width_m);
    CHECK(buildFrame(settings, headWith(250e-6)).litFraction() == Approx(expected).margin(1e-12));
  }
}

TEST_CASE("Patterns that wait for their turn are not drawn", "[scan]") {
  for (const Pattern pattern : drawn) CHECK(canDraw(pattern));
  for (const Pattern pattern : {Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) CHECK_FALSE(canDraw(pattern));
}
