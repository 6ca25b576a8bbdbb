// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a whole project stands in a file. See part_json.h.

#include "core/files/library_json.h"
#include "core/files/machine_json.h"
#include "core/files/part_json.h"
#include "core/files/plan_json.h"
#include "core/values/project.h"

namespace bw {

inline constexpr const char* projectFormat = "barewright-project";
inline constexpr int projectVersion = 1;

inline constexpr FileQuantity people = settingOf("a number of people", units::none, bounds::people);
inline constexpr FileQuantity humidity = settingOf("a humidity", units::percent, bounds::humidity);
inline constexpr FileQuantity supply = settingOf("a power", units::kW, bounds::supply_W);
inline constexpr FileQuantity eyewearDensity = settingOf("an optical density", units::none, bounds::opticalDensity);
inline constexpr FileQuantity moneyPerHour = settingOf("an amount", units::none, bounds::moneyPerHour);
inline constexpr Text clearedItem{"a precaution", 1, 2000};
inline constexpr Whole cardRevision{"a revision", 0, 1000000000};
inline constexpr FileQuantity workTime{"a time", units::minutes, 0, 1e6};

template <class Io>
void describe(Io& io, Site& site) {
  io.may("ambient_C", site.ambient_C, airTemperature);
  io.may("humidity_percent", site.humidity, humidity);
  io.may("supply_kW", site.supply_W, supply);
  io.may("generator", site.generator);
  io.may("people", site.people, people);
  io.may("eyewear", site.eyewear, people);
  io.may("eyewear_optical_density", site.eyewearDensity, eyewearDensity);
  io.may("masks", site.masks, people);
  io.rest(site.extras);
}

template <class Io>
void describe(Io& io, Clearance& clearance) {
  io.must("item", clearance.item, clearedItem);
  io.must("by", clearance.by, nameText);
  io.usual("date", clearance.date, shortText);
  io.may("note", clearance.note);
  io.rest(clearance.extras);
}

template <class Io>
void describe(Io& io, LogEntry& entry) {
  io.usual("time", entry.date, shortText);
  io.may("area", entry.area, shortText);
  io.may("step", entry.step, shortText);
  io.may("minutes", entry.duration_s, workTime);
  io.may("face_C", entry.face_C, anyTemperature);
  io.may("back_C", entry.back_C, anyTemperature);
  io.may("seen", entry.seen, sights);
  io.may("note", entry.note);
  io.rest(entry.extras);
}

template <class Io>
void describe(Io& io, Prices& prices) {
  io.may("machine_per_hour", prices.machinePerHour, moneyPerHour);
  io.may("labour_per_hour", prices.labourPerHour, moneyPerHour);
  io.rest(prices.extras);
}

template <class Io>
void describe(Io& io, MachineOrigin& origin) {
  io.must("machine", origin.machine, idText);
  io.usual("library", origin.library, shortText);
  io.must("card", origin.card, idText);
  io.usual("revision", origin.revision, cardRevision);
  io.may("declined", origin.declined, cardRevision);
  io.rest(origin.extras);
}

template <class Io>
void describe(Io& io, Project& project) {
  if (!io.header(projectFormat, projectVersion)) return;
  io.usual("name", project.name, shortText);
  io.must("part", project.part);
  io.must("coat", project.coat);
  io.must("machines", project.machines);
  io.must("plans", project.plans);
  io.usual("trials", project.trials);
  io.may("site", project.site);
  io.may("before_beam", project.beforeBeam);
  io.may("customer", project.customer, shortText);
  io.may("order", project.order, shortText);
  io.may("notes", project.notes);
  io.may("currency", project.currency, shortText);
  io.may("prices", project.prices);
  io.may("machine_origins", project.machineOrigins);
  io.may("log", project.log);
  io.may("library", project.library);
  io.rest(project.extras);
}

}  // namespace bw
