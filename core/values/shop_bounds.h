// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/setting_bounds.h"

/// What a shop's room, people and prices may be, SI. The one place for file, check and field, as for settings.
namespace bw::bounds {

inline constexpr SettingBounds airTemperature_C{-60, 100};
inline constexpr SettingBounds humidity{0, 1};
inline constexpr SettingBounds supply_W{0, 1e6};
inline constexpr SettingBounds people{0, 10000};  // eyewear and masks too
inline constexpr SettingBounds opticalDensity{0, 20};
inline constexpr SettingBounds airFlow_m3_s{0, 1e6 / 3600};
inline constexpr SettingBounds moneyPerHour{0, 1e9};

}  // namespace bw::bounds
