// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <numbers>

namespace bw {

/// What a setting may be, SI. The one place for the file, its check and the field in the window. A field may begin higher where a pattern
/// cannot be drawn with 0.
struct SettingBounds {
  double low = 0;
  double high = 0;
};

namespace bounds {

inline constexpr SettingBounds share{0, 1};
inline constexpr SettingBounds repetitionRate_Hz{0, 1e8};
inline constexpr SettingBounds focusOffset_m{-10, 10};
inline constexpr SettingBounds frameWidth_m{0, 10};
inline constexpr SettingBounds frameHeight_m{0, 10};
inline constexpr SettingBounds scanSpeed_m_s{0, 1000};
inline constexpr SettingBounds lineSpacing_m{0, 1};
inline constexpr SettingBounds oscillationRate_Hz{0, 1e6};
inline constexpr SettingBounds edgeTrim_m{0, 5};
inline constexpr SettingBounds travelSpeed_m_s{0, 10};
inline constexpr SettingBounds travelAngle_rad{-2 * std::numbers::pi, 2 * std::numbers::pi};
inline constexpr SettingBounds stepOver_m{0, 10};
inline constexpr SettingBounds speedWander{0, 0.6};
inline constexpr SettingBounds pause_s{0, 1e6};
inline constexpr int fewestPasses = 1, mostPlannedPasses = 1000;

}  // namespace bounds

}  // namespace bw
