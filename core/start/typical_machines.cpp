// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/typical_machines.h"

#include <cmath>

namespace bw {
namespace {

Machine pulsed(const char* id, const char* name, double ratedPower_W, double spotDiameter_m, double maxPulseEnergy_J) {
  Machine machine;
  machine.id = id;
  machine.name = name;
  machine.kind = MachineKind::Pulsed;
  machine.ratedPower_W = ratedPower_W;
  machine.M2 = 1.8;
  machine.spotDiameter_m = spotDiameter_m;
  machine.repetitionRate_Hz = {10e3, 800e3};
  machine.pulseDurations_s = {45e-9, 90e-9, 180e-9, 270e-9};
  machine.maxPulseEnergy_J = {maxPulseEnergy_J};
  machine.scan = {2, 0.080, 0.050, 15, 250e-6, {}};
  machine.minAmbient_C = 5;
  machine.supplyPower_W = 400 + 2.5 * ratedPower_W;
  machine.hourlyCost = 18;
  return machine;
}

Machine continuous(const char* id, const char* name, double ratedPower_W, double spotDiameter_m) {
  Machine machine;
  machine.id = id;
  machine.name = name;
  machine.kind = MachineKind::Continuous;
  machine.wavelength_m = 1080e-9;
  machine.ratedPower_W = ratedPower_W;
  machine.M2 = 4;
  machine.spotDiameter_m = spotDiameter_m;
  machine.scan = {1, 0.150, 0, 30, 400e-6, {}};
  machine.minAmbient_C = 5;
  machine.supplyPower_W = 500 + 3 * ratedPower_W;
  machine.hourlyCost = 25;
  return machine;
}

}  // namespace

std::vector<Machine> typicalMachines() {
  return {pulsed("typical-100", "100 W pulsed", 100, 80e-6, 1.5e-3), pulsed("typical-300", "300 W pulsed", 300, 120e-6, 2e-3),
          pulsed("typical-1000", "1 kW pulsed", 1000, 500e-6, 15e-3), continuous("typical-1500", "1.5 kW continuous", 1500, 400e-6)};
}

Machine machineLike(MachineKind kind, double ratedPower_W, double spotDiameter_m) {
  if (kind == MachineKind::Continuous) return continuous("own", "own machine, continuous", ratedPower_W, spotDiameter_m);
  // Pulse energy in proportion to power: 2 mJ at 300 W, as common sources of that class (from memory).
  return pulsed("own", "own machine, pulsed", ratedPower_W, spotDiameter_m, 2e-3 * ratedPower_W / 300);
}

}  // namespace bw
