// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/room.h"

#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <iterator>

namespace bw {
namespace {

bool has(const Extraction& extraction, Filter filter) { return std::ranges::find(extraction.filters, filter) != extraction.filters.end(); }

/// The surest answer of any layer on any of these components.
Presence presenceOf(const std::vector<LayerMaterial>& coat, std::initializer_list<const char*> components) {
  Presence found = Presence::No;
  for (const LayerMaterial& layer : coat) {
    for (const char* component : components) {
      const auto entry = layer.components.find(component);
      if (entry == layer.components.end()) continue;
      if (entry->second == Presence::Yes) return Presence::Yes;
      if (entry->second == Presence::Unknown) found = Presence::Unknown;
    }
  }
  return found;
}

std::string planned(const Extraction& extraction) {
  constexpr double hour_s = 3600;
  if (!extraction.flow_m3_s) return "Extraction is planned; its flow is not known.";
  return "Extraction of " + text::whole(*extraction.flow_m3_s * hour_s) + " m³/h is planned.";
}

/// Only where filters were named: of others nothing is known.
void addFilters(const Extraction& extraction, const std::vector<LayerMaterial>& coat, const Metal& metal, std::vector<RoomFinding>& found) {
  if (extraction.filters.empty()) return;
  const Presence gases = presenceOf(coat, {"pvc", "fluoropolymer", "isocyanate"});
  if (!has(extraction, Filter::Gas) && gases == Presence::Yes)
    found.push_back({Status::Fails, "The extraction has no gas filter, and this coat gives off gases that no dust filter holds.",
                     "Use an extraction with a gas filter."});
  if (!has(extraction, Filter::Gas) && gases == Presence::Unknown)
    found.push_back({Status::Near, "The extraction has no gas filter; this coat may give off gases that no dust filter holds.", ""});
  if (!has(extraction, Filter::FineDust))
    found.push_back(
        {Status::Near, "The extraction has no fine-dust filter: fume passes it.", "Use an extraction with a fine-dust filter."});
  if (!has(extraction, Filter::SparkTrap) && metal.family == MetalFamily::Iron)
    found.push_back({Status::Near, "The extraction has no spark trap: hot particles set filters alight.", "Fit a spark trap."});
}

std::string counted(double count, const char* one, const char* many) { return text::whole(count) + (count == 1 ? one : many); }

}  // namespace

std::optional<double> dewPoint_C(double air_C, double humidity) {
  constexpr double a = 17.625, b_K = 243.04;
  if (!(humidity > 0 && humidity <= 1) || !(air_C >= -40 && air_C <= 50)) return std::nullopt;
  const double g = std::log(humidity) + a * air_C / (b_K + air_C);
  return b_K * g / (a - g);
}

std::vector<RoomFinding> extractionFindings(const Plan& plan, const std::vector<LayerMaterial>& coat, const Metal& metal) {
  if (!(plan.extraction && plan.extraction->on)) return {};
  std::vector<RoomFinding> found{{Status::Near, planned(*plan.extraction), ""}};
  addFilters(*plan.extraction, coat, metal, found);
  return found;
}

std::vector<RoomFinding> peopleFindings(const Site& site, const EyesResult& eyes) {
  std::vector<RoomFinding> found;
  if (site.people && site.eyewear && *site.eyewear < *site.people)
    found.push_back({Status::Fails,
                     counted(*site.people, " person", " people") + " in the room, eyewear for " + text::whole(*site.eyewear) + ".",
                     "Eyewear for everyone, or fewer people in the room."});
  if (site.eyewearDensity && eyes.opticalDensity && *site.eyewearDensity < *eyes.opticalDensity)
    found.push_back({Status::Fails,
                     "The eyewear has optical density " + text::number(*site.eyewearDensity) + "; this beam calls for " +
                         text::whole(*eyes.opticalDensity) + " or more.",
                     "Stronger eyewear for this wavelength."});
  if (site.people && site.masks && *site.masks < *site.people)
    found.push_back({Status::Near,
                     counted(*site.people, " person", " people") + " in the room, masks against fume for " + text::whole(*site.masks) + ".",
                     "Masks for everyone, or fewer people in the room."});
  return found;
}

std::vector<RoomFinding> roomFindings(const Project& project, const Plan& plan, const std::vector<LayerMaterial>& coat, const Metal& metal,
                                      const EyesResult& eyes) {
  std::vector<RoomFinding> found = project.site ? peopleFindings(*project.site, eyes) : std::vector<RoomFinding>{};
  std::ranges::move(extractionFindings(plan, coat, metal), std::back_inserter(found));
  return found;
}

}  // namespace bw
