// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/dose_colours.h"

#include <array>

namespace bw {

namespace {

// Nine equal steps of lightness at one hue (OKLCH, hue 320 degrees), all inside sRGB.
constexpr std::array<const char*, 9> onLight = {"#fbf4fc", "#e6d1eb", "#d1b0d8", "#ba90c3", "#a173ac",
                                                "#885893", "#6d3f77", "#522a5b", "#37173e"};
constexpr std::array<const char*, 9> onDark = {"#2e1234", "#492351", "#64386e", "#7f508a", "#996aa4",
                                               "#b387bc", "#caa6d2", "#e0c8e6", "#f5eaf7"};

}  // namespace

QCPColorGradient doseGradient(bool dark) {
  const auto& stops = dark ? onDark : onLight;
  QMap<double, QColor> colours;
  for (std::size_t i = 0; i < stops.size(); ++i)
    colours.insert(static_cast<double>(i) / static_cast<double>(stops.size() - 1), QColor(QLatin1String(stops[i])));
  QCPColorGradient gradient;
  gradient.setColorStops(colours);
  gradient.setNanHandling(QCPColorGradient::nhTransparent);
  return gradient;
}

}  // namespace bw
