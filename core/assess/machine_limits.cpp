// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"

#include "core/beam/delivery.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using namespace text;

class Findings {
 public:
  void failIf(bool holds, const std::string& message) { add(holds, Status::Fails, message); }
  void warnIf(bool holds, const std::string& message) { add(holds, Status::Near, message); }
  std::vector<MachineFinding> take() { return std::move(m_found); }

 private:
  void add(bool holds, Status status, const std::string& message) {
    if (holds) m_found.push_back({status, message});
  }
  std::vector<MachineFinding> m_found;
};

constexpr double slack = 1 + 1e-9;

bool listed(const std::vector<double>& values, double value) {
  return values.empty() || std::ranges::any_of(values, [&](double v) { return std::abs(v - value) < 1e-3 * v; });
}

void checkPulses(Findings& found, const Machine& machine, const Settings& s) {
  const auto [low, high] = machine.repetitionRate_Hz;
  const bool limited = high > 0;
  found.failIf(limited && (s.repetitionRate_Hz > high * slack || s.repetitionRate_Hz * slack < low),
               "Repetition rate " + number(s.repetitionRate_Hz / 1e3, 3) + " kHz: the machine does " + number(low / 1e3, 3) + " to " +
                   number(high / 1e3, 3) + " kHz.");
  found.failIf(!listed(machine.pulseDurations_s, s.pulseDuration_s),
               "The machine has no pulse duration of " + number(s.pulseDuration_s * 1e9, 3) + " ns.");
  const double asked = s.powerFraction * machine.ratedPower_W;
  const double most = largestPulseEnergy_J(machine, s.pulseDuration_s) * s.repetitionRate_Hz;
  found.warnIf(asked > most * slack,
               "Pulses are at their greatest energy: " + number(most, 3) + " W of the " + number(asked, 3) + " W asked for arrive.");
}

void checkHead(Findings& found, const Machine& machine, const Settings& s) {
  const ScanHead& head = machine.scan;
  const bool stack = s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed;
  const double speed = s.pattern == Pattern::Sine ? std::numbers::pi * s.oscillationRate_Hz.value_or(0) * s.width_m : s.scanSpeed_m_s;
  found.failIf(head.maxWidth_m > 0 && s.width_m > head.maxWidth_m * slack,
               "Frame width " + length(s.width_m) + ": the head reaches " + length(head.maxWidth_m) + ".");
  found.failIf(stack && head.maxHeight_m > 0 && s.height_m > head.maxHeight_m * slack,
               "Frame height " + length(s.height_m) + ": the head reaches " + length(head.maxHeight_m) + ".");
  found.failIf(stack && head.axes < 2, "The head moves along one axis only: it cannot stack lines.");
  found.failIf(head.maxSpeed_m_s > 0 && speed > head.maxSpeed_m_s * slack,
               "Scan speed " + number(speed, 3) + " m/s: the head does " + number(head.maxSpeed_m_s, 3) + " m/s.");
  found.failIf(stack && s.lineSpacing_m > s.height_m && s.height_m > 0, "The line spacing is larger than the frame is high.");
}

void checkSurroundings(Findings& found, const Project& project, const Machine& machine) {
  const double ambient = project.site && project.site->ambient_C ? *project.site->ambient_C : project.part.ambientTemperature_C;
  found.failIf(machine.minAmbient_C && ambient < *machine.minAmbient_C,
               "The shop is at " + temperature(ambient) + "; the machine needs " + temperature(machine.minAmbient_C.value_or(0)) + ".");
  if (!project.site || !project.site->supply_W || !machine.supplyPower_W) return;
  const double draw = *machine.supplyPower_W + machine.extraDraw_W.value_or(0);
  found.failIf(draw > *project.site->supply_W * slack,
               "The machine draws " + number(draw / 1e3) + " kW; the supply gives " + number(*project.site->supply_W / 1e3) + " kW.");
}

}  // namespace

std::vector<MachineFinding> machineFindings(const Project& project, const Machine& machine, const Settings& settings) {
  Findings found;
  found.failIf(settings.powerFraction > slack, "Power is set above 100 %.");
  found.failIf(settings.dutyFraction > slack, "Duty is set above 100 %.");
  if (machine.kind == MachineKind::Pulsed) checkPulses(found, machine, settings);
  checkHead(found, machine, settings);
  checkSurroundings(found, project, machine);
  return found.take();
}

Settings withinMachine(const Machine& machine, Settings s) {
  const ScanHead& head = machine.scan;
  s.powerFraction = std::min(s.powerFraction, 1.0);
  s.dutyFraction = std::min(s.dutyFraction, 1.0);
  if (machine.kind == MachineKind::Pulsed) {
    if (machine.repetitionRate_Hz[1] > 0)
      s.repetitionRate_Hz = std::clamp(s.repetitionRate_Hz, machine.repetitionRate_Hz[0], machine.repetitionRate_Hz[1]);
    if (!listed(machine.pulseDurations_s, s.pulseDuration_s)) {
      s.pulseDuration_s =
          *std::ranges::min_element(machine.pulseDurations_s, {}, [&](double t) { return std::abs(std::log(t / s.pulseDuration_s)); });
    }
  }
  if (head.maxWidth_m > 0) s.width_m = std::min(s.width_m, head.maxWidth_m);
  if (head.maxHeight_m > 0) s.height_m = std::min(s.height_m, head.maxHeight_m);
  if (head.maxSpeed_m_s > 0) {
    s.scanSpeed_m_s = std::min(s.scanSpeed_m_s, head.maxSpeed_m_s);
    if (s.pattern == Pattern::Sine && s.oscillationRate_Hz) {
      s.oscillationRate_Hz = std::min(*s.oscillationRate_Hz, head.maxSpeed_m_s / (std::numbers::pi * s.width_m));
    }
  }
  if (head.axes < 2 && (s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed)) s.pattern = Pattern::Line;
  return s;
}

}  // namespace bw
