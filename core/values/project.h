// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/clearance.h"
#include "core/values/machine.h"
#include "core/values/part.h"
#include "core/values/plan.h"
#include "core/values/substance.h"

namespace bw {

/// Where the work is done.
struct Site {
  std::optional<double> ambient_C;
  std::optional<double> humidity;  // relative, 0..1
  std::optional<double> supply_W;
  bool generator = false;                // the supply is one
  std::optional<double> people;          // in the room while the beam is on
  std::optional<double> eyewear;         // how many of them have eyewear for the wavelength
  std::optional<double> eyewearDensity;  // optical density of the weakest
  std::optional<double> masks;           // how many of them have a mask against fume
  Extras extras;
  bool operator==(const Site&) const = default;
};

/// What an hour costs, in the project's currency.
struct Prices {
  std::optional<double> machinePerHour;  // of machines that state none
  std::optional<double> labourPerHour;
  Extras extras;
  bool operator==(const Prices&) const = default;
};

/// From which card of which library a machine of the project was copied.
struct MachineOrigin {
  std::string machine;  // id in the project
  std::string library;
  std::string card;
  int revision = 0;  // of the card when it was copied
  int declined = 0;  // of a later card that shall not be copied; 0: none
  Extras extras;
  bool operator==(const MachineOrigin&) const = default;
};

/// A stretch of work that was done.
struct LogEntry {
  std::string date;  // ISO 8601
  std::string area;
  std::string step;
  std::optional<double> duration_s;
  std::optional<double> face_C;
  std::optional<double> back_C;
  std::vector<Seen> seen;
  std::string note;
  Extras extras;
  bool operator==(const LogEntry&) const = default;
};

/// A whole job, self-contained: all that an assessment needs besides the shipped library.
struct Project {
  std::string name;
  Part part;
  Coat coat;
  std::vector<Machine> machines;
  std::vector<Plan> plans;
  std::vector<Trial> trials;
  std::optional<Site> site;
  std::vector<Clearance> beforeBeam;  // precautions that were settled or waived
  std::string customer;
  std::string order;
  std::string notes;
  std::string currency;
  std::optional<Prices> prices;
  std::vector<MachineOrigin> machineOrigins;
  std::vector<LogEntry> log;
  Library library;  // the entries it names, copied in on save so that it stands alone; they win over the shipped ones
  Extras extras;
  bool operator==(const Project&) const = default;
};

/// The machine or plan of that name, or nothing.
const Machine* findMachine(const Project& project, const std::string& id);
const Plan* findPlan(const Project& project, const std::string& name);

/// The plan as steps: its own, or the single step that its machine and settings make.
std::vector<Step> stepsOf(const Plan& plan);

}  // namespace bw
