// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/frame.h"

#include "tests/core/scan/frame_by_rule.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cstddef>
#include <vector>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

using std::numbers::pi;

constexpr Pattern all[] = {Pattern::Line,    Pattern::Sine,   Pattern::Raster, Pattern::Crossed,
                           Pattern::Circles, Pattern::Spiral, Pattern::TwoSine};
constexpr Pattern ruled[] = {Pattern::Line,    Pattern::Sine,    Pattern::Raster,
                             Pattern::Crossed, Pattern::Circles, Pattern::TwoSine};  // all but the spiral

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
  for (const Pattern pattern : ruled) {
    for (const Variant& variant : variants) {
      const Settings settings = with(smallFrameSettings(pattern), variant);
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
  Settings settings = smallFrameSettings(Pattern::Raster);
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
  for (const Pattern pattern : all) {
    for (const Variant& variant : variants) {
      if (variant.turnaround_s == 0) continue;  // an ideal head does jump to the next line
      const auto stretches = buildFrame(with(smallFrameSettings(pattern), variant), headWith(variant.turnaround_s)).stretches();
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
    Settings settings = smallFrameSettings(pattern);
    const double overshoot = settings.scanSpeed_m_s * turnaround_s / 4;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2 + overshoot));
    settings.beamOffInTurns = true;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2));
    settings.edgeTrim_m = 0.5e-3;
    CHECK(farthestLit(buildFrame(settings, headWith(turnaround_s))) == Approx(settings.width_m / 2 - 0.5e-3));
  }
}

TEST_CASE("Share of the time that is lit", "[scan]") {
  Settings settings = smallFrameSettings(Pattern::Raster);
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
  Settings settings = smallFrameSettings(Pattern::Sine);
  for (const double trim_m : {0.0, 0.3e-3, 1e-3, 3.05e-3}) {
    settings.edgeTrim_m = trim_m;
    const double expected = 2 / std::numbers::pi * std::asin(1 - 2 * trim_m / settings.width_m);
    CHECK(buildFrame(settings, headWith(250e-6)).litFraction() == Approx(expected).margin(1e-12));
  }
}

TEST_CASE("Any pattern may be asked how many pieces it has, and has no more", "[scan]") {
  for (const Pattern pattern : all) {
    for (const double spacing_m : {1e-6, 0.21e-3, 0.61e-3, 1.3e-3, 3.05e-3, 3.1e-3, 9e-3, 30e-3}) {
      for (const Variant& variant : variants) {
        Settings settings = with(smallFrameSettings(pattern), variant);
        settings.lineSpacing_m = spacing_m;
        const Frame frame = buildFrame(settings, headWith(variant.turnaround_s));
        CAPTURE(static_cast<int>(pattern), spacing_m, variant.oneWay, variant.trim_m);
        CHECK(static_cast<double>(frame.stretches().size()) <= stretchCount(settings));
        CHECK(frame.period_s() > 0);
      }
    }
    Settings huge = smallFrameSettings(pattern);
    huge.lineSpacing_m = 1e-15;
    CHECK((pattern == Pattern::Line || pattern == Pattern::Sine || stretchCount(huge) > 1e12));
  }
}

TEST_CASE("No moment of a piece is faster than it says, and pieces with one speed tell it exactly", "[scan]") {
  for (const Pattern pattern : all) {
    const Frame frame = buildFrame(smallFrameSettings(pattern), headWith(231e-6));
    double exceeded = 0, slack = 0;
    for (const Stretch& stretch : frame.stretches()) {
      const double top = stretch.topSpeed_m_s(), dt = stretch.duration_s * 1e-6;
      double fastest = 0;
      for (int i = 0; i < 200; ++i) {
        const double t = stretch.duration_s * (i + 0.5) / 200;
        fastest = std::max(fastest, (stretch.at(t + dt) - stretch.at(t - dt)).norm() / (2 * dt));
      }
      exceeded = std::max(exceeded, fastest / top - 1);
      slack = std::max(slack, 1 - fastest / top);
      const Point quarterWay = 0.75 * stretch.at(0) + 0.25 * endOf(stretch);
      CHECK(stretch.isStraight() == ((stretch.at(stretch.duration_s / 4) - quarterWay).norm() < 1e-12));
    }
    CAPTURE(static_cast<int>(pattern));
    CHECK(exceeded < 1e-6);  // of the difference quotient
    if (pattern == Pattern::Circles) CHECK(slack < 1e-6);
    if (pattern == Pattern::Spiral) CHECK(slack < 0.35);  // at its inner end, where a piece shrinks by a third
  }
}

TEST_CASE("Two swings are lit and last by their closed forms and never faster than the top speed, which they reach", "[scan]") {
  for (const double height_m : {0.0, 0.1e-3, 0.43e-3, 0.7e-3, 1.73e-3, 12e-3}) {
    for (const double trim_m : {0.0, 0.4e-3}) {
      Settings settings = smallFrameSettings(Pattern::TwoSine);
      settings.height_m = height_m;
      settings.edgeTrim_m = trim_m;
      const Frame frame = buildFrame(settings, headWith(250e-6));
      CAPTURE(height_m, trim_m);
      const double swings = std::max(1.0, std::floor(height_m / settings.lineSpacing_m));
      CHECK(frame.period_s() == Approx(swings / *settings.oscillationRate_Hz));
      CHECK(frame.litFraction() == Approx(2 / pi * std::asin(1 - 2 * trim_m / settings.width_m)));
      double fastest = 0;
      const double dt = frame.period_s() * 1e-7;
      for (int i = 0; i < 100000; ++i) {
        const double t = frame.period_s() * (i + 0.5) / 100000;
        const Stretch& stretch = frame.stretchAt(t);
        const double into = t - stretch.begin_s;
        fastest = std::max(fastest, (stretch.at(into + dt) - stretch.at(into - dt)).norm() / (2 * dt));
      }
      CHECK(fastest == Approx(topScanSpeed_m_s(settings)).epsilon(1e-6));  // as near as the samples lie to the top
    }
  }
}

TEST_CASE("The top speed of two swings is no mere bound where their fastest moments never meet", "[scan]") {
  Settings settings = smallFrameSettings(Pattern::TwoSine);
  settings.height_m = 3.5 * settings.lineSpacing_m;  // three swings in one
  const double fast = pi * *settings.oscillationRate_Hz * settings.width_m;
  settings.width_m = settings.height_m;
  const double x = fast * settings.width_m / 6.1e-3, y = x / 3;
  CHECK(topScanSpeed_m_s(settings) < 0.99 * std::hypot(x, y));
  settings.height_m = 0.5 * settings.lineSpacing_m;  // one: an ellipse
  settings.width_m = settings.height_m / 3;
  CHECK(topScanSpeed_m_s(settings) == Approx(pi * *settings.oscillationRate_Hz * settings.height_m));
}

TEST_CASE("The way back of two swings mirrors the way forth instead of going over it again", "[scan]") {
  for (const int swings : {1, 2, 3, 8, 9}) {
    Settings settings = smallFrameSettings(Pattern::TwoSine);
    settings.height_m = swings * settings.lineSpacing_m;
    const Frame frame = buildFrame(settings, headWith(250e-6));
    const auto at = [&](double share) {
      const double t = frame.period_s() * (share - std::floor(share));
      const Stretch& stretch = frame.stretchAt(t);
      return stretch.at(t - stretch.begin_s);
    };
    const double turning = 0.25 - (swings % 2 == 1 ? 0.25 / swings : 0);  // y at its greatest
    double farthest = 0;
    for (int i = 0; i < 500; ++i) {
      const Point forth = at(turning + i / 1000.0), back = at(turning - i / 1000.0);
      farthest = std::max(farthest, (forth - Point(-back.x(), back.y())).norm());
    }
    CAPTURE(swings);
    CHECK(farthest < 1e-12);
  }
}

TEST_CASE("Circles take 2 pi R / v each and a turnaround between, tight ones longer", "[scan]") {
  Settings settings = smallFrameSettings(Pattern::Circles);
  settings.width_m = 4e-3;
  settings.lineSpacing_m = 0.5e-3;  // radii 2, 1.5, 1, 0.5 mm
  const double v = settings.scanSpeed_m_s, T = 250e-6;
  CHECK(innerRadius_m(settings) == Approx(0.5e-3));
  CHECK(buildFrame(settings, headWith(0)).period_s() == Approx(2 * pi * 5e-3 / v));
  REQUIRE(slowRadius_m(settings, headWith(T)) == Approx(0.9125e-3));
  const double slowed = std::sqrt(0.9125e-3 / 0.5e-3);
  const double circles = 2 * pi * (4.5e-3 + 0.5e-3 * slowed) / v;
  CHECK(buildFrame(settings, headWith(T)).period_s() == Approx(circles + 3 * T));
  CHECK(buildFrame(settings, headWith(T)).litFraction() == Approx(1));
  settings.beamOffInTurns = true;
  CHECK(buildFrame(settings, headWith(T)).litFraction() == Approx(circles / (circles + 3 * T)));
  settings.beamOffInTurns = false;
  settings.edgeTrim_m = 1e-4;
  CHECK(buildFrame(settings, headWith(T)).litFraction() == Approx(circles / (circles + 3 * T)));
}

TEST_CASE("The last circle is at least a quarter of the spacing wide, and there is one at least", "[scan]") {
  struct Row {
    double width_m, spacing_m;
    std::ptrdiff_t circles;
    double inner_m;
  };
  const Row rows[] = {{4e-3, 0.5e-3, 4, 0.5e-3}, {4.25e-3, 0.5e-3, 5, 0.125e-3}, {4.24e-3, 0.5e-3, 4, 0.62e-3}, {4e-3, 9e-3, 1, 2e-3}};
  for (const Row& row : rows) {
    Settings settings = smallFrameSettings(Pattern::Circles);
    settings.width_m = row.width_m;
    settings.lineSpacing_m = row.spacing_m;
    CAPTURE(row.width_m, row.spacing_m);
    const Frame frame = buildFrame(settings, headWith(0));
    CHECK(static_cast<std::ptrdiff_t>(frame.stretches().size()) == row.circles);
    CHECK(frame.stretches().back().at(0).x() == Approx(row.inner_m));
    CHECK(innerRadius_m(settings) == Approx(row.inner_m));
  }
}

namespace {

/// Length of r = slope x angle from the middle to radius r (closed form, e.g. Bronstein).
double spiralLength(double radius_m, double slope_m) {
  const double u = radius_m / slope_m;
  return slope_m / 2 * (u * std::sqrt(1 + u * u) + std::asinh(u));
}

}  // namespace

TEST_CASE("A spiral keeps its law in place and its speed in each piece", "[scan]") {
  for (const double width_m : {0.9e-3, 6.1e-3, 40e-3}) {
    Settings settings = smallFrameSettings(Pattern::Spiral);
    settings.width_m = width_m;
    const double slope = settings.lineSpacing_m / (2 * pi), outer = width_m / 2, inner = settings.lineSpacing_m / 4;
    const Frame frame = buildFrame(settings, headWith(0));
    CAPTURE(width_m);
    CHECK(frame.litFraction() == Approx(1));
    CHECK((frame.stretches().front().at(0) - Point(outer, 0)).norm() < 1e-15);
    CHECK(endOf(frame.stretches().back()).norm() == Approx(inner).epsilon(1e-12));
    CHECK(frame.period_s() * settings.scanSpeed_m_s == Approx(spiralLength(outer, slope) - spiralLength(inner, slope)).epsilon(1e-4));
    double offLaw = 0, offSpeed = 0, widest = 0;
    for (const Stretch& stretch : frame.stretches()) {
      for (int i = 0; i <= 8; ++i) {
        const Point p = stretch.at(stretch.duration_s * i / 8);
        const double turned = (outer - p.norm()) / slope;  // the angle this radius belongs to
        offLaw = std::max(offLaw, (p - p.norm() * Point(std::cos(turned), std::sin(turned))).norm());
      }
      const double length = spiralLength(stretch.at(0).norm(), slope) - spiralLength(endOf(stretch).norm(), slope);
      offSpeed = std::max(offSpeed, std::abs(length / stretch.duration_s / settings.scanSpeed_m_s - 1));
      widest = std::max(widest, stretch.rate_rad_s * stretch.duration_s);
    }
    CHECK(offLaw < 1e-12);
    CHECK(offSpeed < 1e-3);  // Simpson's rule over an eighth of a turn; 1e-2 would do
    CHECK(widest <= pi / 4 * (1 + 1e-12));
  }
}

TEST_CASE("A spiral slows where it is tight, by the square root of the radius", "[scan]") {
  const Settings settings = smallFrameSettings(Pattern::Spiral);
  const ScanHead head = headWith(400e-6);
  const double slow = slowRadius_m(settings, head);
  REQUIRE(slow == Approx(1.46e-3));
  const Frame frame = buildFrame(settings, head);
  int slowed = 0;
  for (const Stretch& stretch : frame.stretches()) {
    double length = 0;
    const double dt = stretch.duration_s / 400;
    for (int i = 0; i < 400; ++i) length += (stretch.at((i + 1) * dt) - stretch.at(i * dt)).norm();
    const double radius = stretch.at(stretch.duration_s / 2).norm();
    const double expected = settings.scanSpeed_m_s * std::min(1.0, std::sqrt(radius / slow));
    CAPTURE(radius);
    CHECK(length / stretch.duration_s == Approx(expected).epsilon(0.01));
    slowed += radius < slow ? 1 : 0;
  }
  CHECK(slowed > 20);
}
