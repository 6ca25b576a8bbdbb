// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/part_heat.h"
#include "core/heat/path_heat.h"

namespace bw {

struct Faces {
  double front_C = 0;
  double back_C = 0;
};

/// Near and part heat joined: temperatures anywhere on the part at any time of the work. Every joule is in one of the two, by its age:
/// younger than the handover in near heat, older on the grid. Near heat is a rise in enthalpy on what the grid has there, so that a
/// specific heat that grows with temperature is met; it spreads with one diffusivity at a time, that of the metal half way to its own
/// temperature. Beside packaged finite elements this leaves 0.3 % of the rise for constant properties, 3 % for hot steel.
///
/// A grid with windows has heat of all ages, young heat as frames smeared evenly. What it thus has of heat younger than the handover is
/// taken off again by the same constant properties that near heat is added with: then these count only for the difference between the
/// beam's own way and its smear. At windows of 1.6 mm this leaves 0.13 % of the rise for either, of 3.2 mm 0.6 %.
class WorkHeat {
 public:
  /// `near` must look back just as far as the part's handover.
  WorkHeat(const PathHeat& near, const MetalEnthalpy& metal, const PartField& part, double power_W)
      : m_near(near), m_metal(metal), m_part(part), m_power(power_W) {}

  const PathHeat& near() const { return m_near; }
  const PartField& part() const { return m_part; }

  /// An enthalpy of the grid with a near rise per watt on top.
  double withEnthalpy_C(double enthalpy_J_m3, double rise_K_W) const {
    return m_metal.temperature_C(enthalpy_J_m3 + m_power * m_near.plate().heatCapacity_J_m3K * rise_K_W);
  }

  /// Of the grid alone.
  double part_C(const Point& place, double time_s) const { return m_metal.temperature_C(handedOver_J_m3(place, time_s, 1)); }

  /// Near heat spreads as fast as the metal does half way between the part's temperature there and the one it makes.
  Faces at(const HeatQuery& query) const;

  /// Faces averaged over the 10 ms up to a time and over a spot-sized patch, as a gauge or a paint film would feel them.
  Faces patchAt(const Point& place, double end_s, const FrameShift& frames = {}) const;

  /// How fast near heat spreads there, over the near plate's diffusivity.
  double spreading(const Point& place, double time_s) const;

  /// A near rise per watt put on what the grid has at a place and time.
  Faces with(const Point& place, double time_s, const FacesRise& rise) const {
    const double under = handedOver_J_m3(place, time_s, rise.spreading), perKelvin = m_power * m_near.plate().heatCapacity_J_m3K;
    return {m_metal.temperature_C(under + perKelvin * rise.front_K), m_metal.temperature_C(under + perKelvin * rise.back_K)};
  }

 private:
  double handedOver_J_m3(const Point& place, double time_s, double spreading) const;

  const PathHeat& m_near;
  const MetalEnthalpy& m_metal;
  const PartField& m_part;
  double m_power;
};

/// Near rise averaged over the 10 ms up to a time and over a spot-sized patch, as a gauge or a paint film would feel it.
FacesRise patchMean(const PathHeat& near, const Point& place, double end_s, double spreading = 1, const FrameShift& frames = {});

inline constexpr double patchTime_s = 0.010;

}  // namespace bw
