// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/first_guess.h"

#include "core/beam/delivery.h"
#include "core/start/typical_machines.h"

#include <algorithm>
#include <cmath>

namespace bw {
namespace {

// All of these: common practice, no source.
constexpr double shareOfPower = 0.8;
constexpr double shareOfPulseEnergy = 0.8;  // room below the machine's largest pulse
constexpr double shareOfSpot = 0.5;         // pulse step and line spacing, of the spot
constexpr double shareOfFrame = 0.6;        // of the largest frame the head can fill
constexpr double widestFrame_m = 0.040;
constexpr double tallestFrame_m = 0.015;
constexpr double shareOfSwath = 0.9;
constexpr double slowestHand_m_s = 0.002;
constexpr double fastestHand_m_s = 0.050;
constexpr int passes = 3;

double pulseEnergyLimit_J(const Machine& machine, std::size_t duration) {
  if (machine.maxPulseEnergy_J.empty()) return 0;
  return machine.maxPulseEnergy_J[std::min(duration, machine.maxPulseEnergy_J.size() - 1)];
}

void guessPulses(Settings& settings, const Machine& machine) {
  const std::size_t duration = machine.pulseDurations_s.size() / 2;
  if (!machine.pulseDurations_s.empty()) settings.pulseDuration_s = machine.pulseDurations_s[duration];
  const double limit_J = pulseEnergyLimit_J(machine, duration);
  const double wanted_Hz = limit_J > 0 ? settings.powerFraction * fullPower_W(machine) / (shareOfPulseEnergy * limit_J) : 0;
  settings.repetitionRate_Hz = std::clamp(wanted_Hz, machine.repetitionRate_Hz[0], machine.repetitionRate_Hz[1]);
  settings.scanSpeed_m_s = std::min(machine.scan.maxSpeed_m_s, settings.repetitionRate_Hz * shareOfSpot * machine.spotDiameter_m);
}

/// The pace at which the hand moves on by one line spacing while one line is drawn, or while two, three ... are where that is too fast for
/// it: frames lie a whole number deep on every place.
double evenTravel_m_s(const Settings& settings, double turnaround_s) {
  const double once = settings.lineSpacing_m / (settings.width_m / settings.scanSpeed_m_s + turnaround_s);
  return once / std::max(1.0, std::ceil(once / fastestHand_m_s));
}

}  // namespace

Settings firstGuess(const Machine& machine) {
  Settings settings;
  settings.powerFraction = shareOfPower;
  settings.pattern = machine.scan.axes > 1 ? Pattern::Raster : Pattern::Line;
  settings.width_m = std::min(widestFrame_m, shareOfFrame * machine.scan.maxWidth_m);
  settings.height_m = machine.scan.axes > 1 ? std::min(tallestFrame_m, shareOfFrame * machine.scan.maxHeight_m) : 0;
  settings.lineSpacing_m = shareOfSpot * machine.spotDiameter_m;
  settings.scanSpeed_m_s = machine.scan.maxSpeed_m_s;
  if (machine.kind == MachineKind::Pulsed) guessPulses(settings, machine);
  if (settings.scanSpeed_m_s > 0 && settings.width_m > 0) {
    settings.travelSpeed_m_s = std::max(evenTravel_m_s(settings, machine.scan.turnaround_s), slowestHand_m_s);
  }
  settings.stepOver_m = shareOfSwath * settings.width_m;
  settings.beamOffInTurns = true;
  settings.passes = passes;
  return settings;
}

std::vector<MachineOffer> typicalOffers(const std::vector<Machine>& own) {
  std::vector<MachineOffer> offers;
  for (const Machine& machine : own) offers.push_back({machine, firstGuess(machine), true});
  for (const Machine& machine : typicalMachines()) offers.push_back({machine, firstGuess(machine)});
  return offers;
}

}  // namespace bw
