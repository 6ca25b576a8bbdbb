// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_io.h"

#include <numbers>

/// The units of the files, each with the two factors that lead to SI.
namespace bw::units {

inline constexpr Unit none{""};
inline constexpr Unit um{"µm", 1, 1e6};
inline constexpr Unit mm{"mm", 1, 1e3};
inline constexpr Unit m{"m"};
inline constexpr Unit nm{"nm", 1, 1e9};
inline constexpr Unit cm2{"cm²", 1, 1e4};
inline constexpr Unit mm_s{"mm/s", 1, 1e3};
inline constexpr Unit ns{"ns", 1, 1e9};
inline constexpr Unit us{"µs", 1, 1e6};
inline constexpr Unit s{"s"};
inline constexpr Unit minutes{"min", 60, 1};
inline constexpr Unit Hz{"Hz"};
inline constexpr Unit kHz{"kHz", 1e3, 1};
inline constexpr Unit W{"W"};
inline constexpr Unit kW{"kW", 1e3, 1};
inline constexpr Unit mJ{"mJ", 1, 1e3};
inline constexpr Unit celsius{"°C"};
inline constexpr Unit percent{"%", 1, 100};
inline constexpr Unit deg{"°", std::numbers::pi, 180};
inline constexpr Unit mrad{"mrad", 1, 1e3};
inline constexpr Unit W_m2K{"W/(m² K)"};
inline constexpr Unit W_mK{"W/(m K)"};
inline constexpr Unit kg_m3{"kg/m³"};
inline constexpr Unit J_kgK{"J/(kg K)"};
inline constexpr Unit J_mm3{"J/mm³", 1e9, 1};
inline constexpr Unit m3_h{"m³/h", 1, 3600};
inline constexpr Unit perMm{"1/mm", 1e3, 1};
inline constexpr Unit GPa{"GPa", 1e9, 1};
inline constexpr Unit MPa{"MPa", 1e6, 1};
inline constexpr Unit perMillionK{"1e-6/K", 1, 1e6};

}  // namespace bw::units
