// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_io.h"

#include <numbers>

/// The units of the files, each with the two factors that lead to SI.
namespace bw::units {

inline constexpr FileUnit none{""};
inline constexpr FileUnit um{"µm", 1, 1e6};
inline constexpr FileUnit mm{"mm", 1, 1e3};
inline constexpr FileUnit m{"m"};
inline constexpr FileUnit nm{"nm", 1, 1e9};
inline constexpr FileUnit cm2{"cm²", 1, 1e4};
inline constexpr FileUnit mm_s{"mm/s", 1, 1e3};
inline constexpr FileUnit ns{"ns", 1, 1e9};
inline constexpr FileUnit us{"µs", 1, 1e6};
inline constexpr FileUnit s{"s"};
inline constexpr FileUnit minutes{"min", 60, 1};
inline constexpr FileUnit Hz{"Hz"};
inline constexpr FileUnit kHz{"kHz", 1e3, 1};
inline constexpr FileUnit W{"W"};
inline constexpr FileUnit kW{"kW", 1e3, 1};
inline constexpr FileUnit mJ{"mJ", 1, 1e3};
inline constexpr FileUnit celsius{"°C"};
inline constexpr FileUnit percent{"%", 1, 100};
inline constexpr FileUnit deg{"°", std::numbers::pi, 180};
inline constexpr FileUnit mrad{"mrad", 1, 1e3};
inline constexpr FileUnit W_m2K{"W/(m² K)"};
inline constexpr FileUnit W_mK{"W/(m K)"};
inline constexpr FileUnit kg_m3{"kg/m³"};
inline constexpr FileUnit J_kgK{"J/(kg K)"};
inline constexpr FileUnit J_mm3{"J/mm³", 1e9, 1};
inline constexpr FileUnit m3_h{"m³/h", 1, 3600};
inline constexpr FileUnit perMm{"1/mm", 1e3, 1};
inline constexpr FileUnit GPa{"GPa", 1e9, 1};
inline constexpr FileUnit MPa{"MPa", 1e6, 1};
inline constexpr FileUnit perMillionK{"1e-6/K", 1, 1e6};

}  // namespace bw::units
