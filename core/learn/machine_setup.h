// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/measurements.h"
#include "core/values/machine.h"

#include <cstddef>

namespace bw {

/// Properties of a machine that measurements can tell.
enum class MachineField { SpotDiameter, M2, Divergence, MaxWidth, MaxHeight, Turnaround, DeliveredPower, MaxPulseEnergy };

/// A property as people call it, and the unit in which they read it: so many of it are one in SI.
struct FieldShown {
  std::string name;
  std::string unit;  // symbol, may be empty
  double perSI = 1;
};
FieldShown fieldShown(MachineField field);

/// One property that would change, in SI.
struct MachineChange {
  MachineField field = MachineField::SpotDiameter;
  std::optional<double> old;                 // none: the machine did not say
  Range value;                               // likely is what would be entered
  std::string from;                          // the measurement it comes from
  std::optional<std::size_t> pulseDuration;  // which of the machine's, for a pulse energy that holds at one of them

  /// Whether the old value lies within the new range, so that the measurement does not speak against it.
  bool agrees() const { return old && value.low <= *old && *old <= value.high; }
};

struct SpotAt {
  double focusOffset_m = 0;
  Learnt<SpotFit> spot;
};

struct CeilingAt {
  std::optional<double> pulseDuration_s;
  Learnt<EnergyCeiling> ceiling;
};

/// What the measurements say, one by one, and what they would change.
struct Proposal {
  Machine machine;  // with every change made
  std::vector<MachineChange> changes;
  std::vector<SpotAt> spots;
  std::optional<Learnt<CausticFit>> caustic;
  std::optional<Learnt<Proportion>> width;
  std::optional<Learnt<Proportion>> height;
  std::optional<Learnt<TurnaroundFit>> turnaround;
  std::optional<Learnt<DeliveredPower>> power;
  std::vector<CeilingAt> ceilings;
  std::vector<std::string> remarks;
};

/// Works out every kind of measurement and proposes what the machine would become. Marks at four focus offsets or more also give the
/// caustic, whose waist then is the spot; else it is the spot of the marks made in focus. Changes nothing by itself: each change is listed
/// with the old value, the range and the measurement, and can be taken alone by `apply`.
Proposal proposeMachine(const Machine& machine, const Measurements& measurements);

/// Line times from frames. One-way lines are drawn there and back, with a turn at each end.
std::vector<LineTime> lineTimes(const std::vector<FrameTime>& frames);

/// Enters the likely value of one change.
void apply(Machine& machine, const MachineChange& change);

}  // namespace bw
