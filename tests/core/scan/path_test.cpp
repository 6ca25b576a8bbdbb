// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/path.h"

#include "tests/core/scan/frame_by_rule.h"
#include "tests/support/catch.h"

#include <numeric>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

constexpr Pattern drawn[] = {Pattern::Line, Pattern::Sine, Pattern::Raster, Pattern::Crossed};
constexpr double degree = std::numbers::pi / 180;

double energyOf(const std::vector<Dab>& dabs) {
  return std::accumulate(dabs.begin(), dabs.end(), 0.0, [](double sum, const Dab& dab) { return sum + dab.energy_J; });
}

}  // namespace

TEST_CASE("The hand moves along its direction", "[scan]") {
  // Head at (1, 0) and (0, 1), after 2 s at 3 m/s.
  struct Row {
    double angle_deg;
    Point ofX, ofY;  // (across, along)
  };
  const double c = std::sqrt(0.5);
  const Row rows[] = {{90, {1, 6}, {0, 7}}, {0, {0, 7}, {-1, 6}}, {180, {0, 5}, {1, 6}}, {45, {c, 6 + c}, {-c, 6 + c}}};
  for (const Row& row : rows) {
    const Travel travel(3, row.angle_deg * degree);
    CHECK((travel.onPart(Point::UnitX(), 2) - row.ofX).norm() < 1e-12);
    CHECK((travel.onPart(Point::UnitY(), 2) - row.ofY).norm() < 1e-12);
  }
}

TEST_CASE("Pulses come at k/f, each where the rules put the beam, and only while it is lit", "[scan]") {
  const Travel travel(0.02, 37 * degree);
  for (const Pattern pattern : drawn) {
    for (const double rate_Hz : {23.7e3, 240e3}) {
      for (const int variant : {0, 1, 2, 3}) {
        Settings settings = smallFrameSettings(pattern);
        settings.beamOffInTurns = variant == 1;
        settings.edgeTrim_m = variant == 2 ? 0.4e-3 : 0;
        settings.oneWay = variant == 3;
        const double turnaround_s = 231e-6;
        const auto dabs = dabsOf(buildFrame(settings, headWith(turnaround_s)), travel, {true, rate_Hz, 255}, 60e-6);
        const FrameByRule rule(settings, turnaround_s);
        CAPTURE(static_cast<int>(pattern), rate_Hz, variant);
        std::vector<Dab> expected;
        for (int k = 0; k / rate_Hz < rule.period_s(); ++k) {
          const Beam beam = rule.at(k / rate_Hz);
          if (beam.lit) expected.push_back({travel.onPart(beam.at, k / rate_Hz), k / rate_Hz, 255 / rate_Hz});
        }
        REQUIRE(dabs.size() == expected.size());
        double farthest = 0, latest = 0;
        for (std::size_t i = 0; i < dabs.size(); ++i) {
          farthest = std::max(farthest, (dabs[i].position - expected[i].position).norm());
          latest = std::max(latest, std::abs(dabs[i].time_s - expected[i].time_s));
        }
        CHECK(farthest < 1e-12);
        CHECK(latest < 1e-15);
        CHECK(dabs.front().energy_J == Approx(255 / rate_Hz));
      }
    }
  }
}

TEST_CASE("A pulse on the boundary of two pieces is fired once", "[scan]") {
  // Every line takes 1 ms or exactly 240 pulses, every turn 0.25 ms or 60: all boundaries fall on pulses.
  for (const double height_m : {0.1e-3, 14e-3, 400e-3}) {
    Settings settings = smallFrameSettings(Pattern::Raster);
    settings.width_m = 9e-3;
    settings.scanSpeed_m_s = 9;
    settings.lineSpacing_m = 0.08e-3;
    settings.height_m = height_m;
    const std::size_t lines = static_cast<std::size_t>(FrameByRule::lines(height_m, settings.lineSpacing_m));
    const Travel travel(0.008, 90 * degree);
    const auto count = [&] { return dabsOf(buildFrame(settings, headWith(250e-6)), travel, {true, 240e3, 255}, 60e-6).size(); };
    CAPTURE(height_m);
    CHECK(count() == 300 * lines);
    settings.beamOffInTurns = true;
    CHECK(count() == 240 * lines);
    settings.edgeTrim_m = 0.9e-3;
    CHECK(count() == 192 * lines);
  }
}

TEST_CASE("Pieces of a continuous beam hold power times lit time and lie close together", "[scan]") {
  for (const Pattern pattern : drawn) {
    for (const double travel_m_s : {0.008, 9.0}) {  // the second: a hand faster than the head
      for (const int variant : {0, 1, 2, 3}) {
        Settings settings = smallFrameSettings(pattern);
        settings.beamOffInTurns = variant == 1;
        settings.edgeTrim_m = variant == 2 ? 0.4e-3 : 0;
        settings.oneWay = variant == 3;
        const Frame frame = buildFrame(settings, headWith(231e-6));
        const Travel travel(travel_m_s, 90 * degree);
        const Emission emission{false, 0, 1500};
        const auto dabs = dabsOf(frame, travel, emission, 60e-6);
        CAPTURE(static_cast<int>(pattern), travel_m_s, variant);
        CHECK(energyOf(dabs) == Approx(1500 * frame.litFraction() * frame.period_s()));
        double widest = 0;
        for (std::size_t i = 1; i < dabs.size(); ++i) {
          if (&frame.stretchAt(dabs[i].time_s) != &frame.stretchAt(dabs[i - 1].time_s)) continue;
          widest = std::max(widest, (dabs[i].position - dabs[i - 1].position).norm());
        }
        CHECK(widest <= 30e-6 * (1 + 1e-9));
        CHECK(static_cast<double>(dabs.size()) == dabCount(frame, travel, emission, 60e-6));
      }
    }
  }
}

TEST_CASE("Pulses are counted before they are made", "[scan]") {
  const Frame frame = buildFrame(smallFrameSettings(Pattern::Raster), headWith(231e-6));
  const Travel travel(0.008, 90 * degree);
  const Emission emission{true, 240e3, 255};
  const double made = static_cast<double>(dabsOf(frame, travel, emission, 60e-6).size());
  CHECK(std::abs(dabCount(frame, travel, emission, 60e-6) - made) <= 1);
}

TEST_CASE("Bounds of the lit beam", "[scan]") {
  const Settings settings = smallFrameSettings(Pattern::Raster);
  const double turnaround_s = 231e-6, half = settings.width_m / 2 + settings.scanSpeed_m_s * turnaround_s / 4;
  const LitBounds across = litBounds(buildFrame(settings, headWith(turnaround_s)), Travel(0.008, 90 * degree));
  CHECK(across.low.x() == Approx(-half));
  CHECK(across.high.x() == Approx(half));
  CHECK(across.high.y() - across.low.y() == Approx(9 * 0.21e-3));  // 9 lines, 8 gaps, and the last turn's advance
}

TEST_CASE("Rows hold the very pulses, place, time and energy", "[scan]") {
  for (const Pattern pattern :
       {Pattern::Line, Pattern::Sine, Pattern::Raster, Pattern::Crossed, Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
    for (const int variant : {0, 1, 2, 3}) {
      Settings settings = smallFrameSettings(pattern);
      settings.beamOffInTurns = variant == 1;
      settings.edgeTrim_m = variant == 2 ? 0.4e-3 : 0;
      settings.oneWay = variant == 3;
      const Frame frame = buildFrame(settings, headWith(231e-6));
      const Travel travel(0.02, 37 * degree);
      const Emission emission{true, 23.7e3, 255};  // pulses stand apart: none are merged along curves
      const auto dabs = dabsOf(frame, travel, emission, 10e-6);
      std::size_t n = 0;
      double farthest = 0, latest = 0;
      for (const DabRow& row : rowsOf(frame, travel, emission, 10e-6)) {
        REQUIRE_FALSE(row.smeared);
        for (std::int64_t k = 0; k < row.count; ++k, ++n) {
          REQUIRE(n < dabs.size());
          farthest = std::max(farthest, (row.first + row.step * static_cast<double>(k) - dabs[n].position).norm());
          latest = std::max(latest, std::abs(row.first_s + row.interval_s * static_cast<double>(k) - dabs[n].time_s));
          CHECK(row.energy_J == Approx(dabs[n].energy_J));
        }
      }
      CAPTURE(static_cast<int>(pattern), variant);
      CHECK(n == dabs.size());
      CHECK(farthest < 1e-12);
      CHECK(latest < 1e-14);
    }
  }
}

TEST_CASE("Rows of a frame that is cut off hold what came before", "[scan]") {
  const Frame frame = buildFrame(smallFrameSettings(Pattern::Raster), headWith(231e-6));
  const Travel travel(0.02, 37 * degree);
  for (const double share : {0.013, 0.4, 0.77, 1.0, 5.0}) {
    const double begin_s = 3 * frame.period_s(), end_s = begin_s + share * frame.period_s(),
                 shown = std::min(1.0, share) * frame.period_s();
    CAPTURE(share);
    const auto smeared = rowsOf(frame, travel, {false, 0, 1000}, 60e-6, {begin_s, end_s});
    CHECK(bw::energyOf(smeared) == Approx(1000 * shown));  // its turns burn: lit all the time
    const auto pulses = rowsOf(frame, travel, {true, 240e3, 240}, 60e-6, {begin_s, end_s});
    CHECK(bw::energyOf(pulses) == Approx(1e-3 * std::ceil(shown * 240e3 * (1 - 1e-13))));
    // Its time is the stroke's: the hand has moved on by three frames.
    CHECK((pulses.front().first - travel.onPart(frame.stretches().front().at(0), begin_s)).norm() < 1e-12);
  }
}

TEST_CASE("Rows are counted before they are made", "[scan]") {
  for (const Pattern pattern :
       {Pattern::Line, Pattern::Sine, Pattern::Raster, Pattern::Crossed, Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
    for (const Emission& emission :
         {Emission{true, 23.7e3, 255}, Emission{true, 900e3, 255}, Emission{true, 40e6, 255}, Emission{false, 0, 1500}}) {
      const Frame frame = buildFrame(smallFrameSettings(pattern), headWith(231e-6));
      const Travel travel(0.02, 37 * degree);
      const double made = static_cast<double>(rowsOf(frame, travel, emission, 60e-6).size()),
                   told = rowCount(frame, travel, emission, 60e-6);
      CAPTURE(static_cast<int>(pattern), emission.rate_Hz);
      // A stretch may begin or end between two pulses, or be so short that none falls on it.
      CHECK(made == Approx(told).epsilon(0.1).margin(2.0 * static_cast<double>(frame.stretches().size())));
    }
  }
}

TEST_CASE("A gated beam is on for its duty of each period and keeps the frame's energy", "[scan]") {
  Settings settings;
  settings.width_m = 9e-3;
  settings.height_m = 1e-3;
  settings.lineSpacing_m = 0.5e-3;
  settings.scanSpeed_m_s = 3;
  settings.beamOffInTurns = true;
  const Travel travel(0.01, 1.5707963267948966);
  for (const double duty : {0.1, 0.5, 0.93}) {
    for (const double gate_Hz : {5e3, 7.3e3}) {
      for (const Pattern pattern : {Pattern::Raster, Pattern::Circles}) {
        settings.pattern = pattern;
        const Frame frame = buildFrame(settings, headWith(200e-6));
        const Emission gated{false, 0, 1500 * duty, gate_Hz, duty};
        const double energy = 1500 * duty * frame.litFraction() * frame.period_s();
        const auto rows = rowsOf(frame, travel, gated, 60e-6);
        const auto dabs = dabsOf(frame, travel, gated, 60e-6);
        CAPTURE(duty, gate_Hz, static_cast<int>(pattern));
        CHECK(energyOf(rows) == Approx(energy).epsilon(1e-12));
        double sum = 0;
        for (const Dab& dab : dabs) {
          sum += dab.energy_J;
          const double phase = dab.time_s * gate_Hz - std::floor(dab.time_s * gate_Hz);
          CHECK(phase <= duty + 1e-9);
        }
        CHECK(sum == Approx(energy).epsilon(1e-12));
        CHECK(static_cast<double>(rows.size()) <= rowCount(frame, travel, gated, 60e-6) + 1e-9);
        if (pattern == Pattern::Circles) continue;
        // Dashes as long as the duty's share of the way between two, but where a line cuts them.
        const double whole = duty * 3 / gate_Hz;
        const auto uncut = std::ranges::count_if(rows, [&](const DabRow& row) { return std::abs(row.step.norm() / whole - 1) < 1e-4; });
        CHECK(uncut >= 3 * (static_cast<int>(9e-3 / 3 * gate_Hz) - 1));
        for (const DabRow& row : rows) CHECK(row.step.norm() < whole * (1 + 1e-4));
      }
    }
  }
}
