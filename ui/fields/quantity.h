// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include <vector>

namespace bw {

/// A unit people type, and what one of it is in SI.
struct Unit {
  QString symbol;
  double inSI = 1;
};

/// What a field holds: the unit it shows (the first) and the others it understands when they are typed.
struct Quantity {
  std::vector<Unit> units;
  int digits = 4;  // significant digits shown; the value itself is never rounded
  bool pace = false;  // a speed may be typed as "10 cm in 4 s" too

  const Unit& shown() const { return units.front(); }
};

namespace quantities {

inline const Unit micrometre{QStringLiteral("µm"), 1e-6};
inline const Unit millimetre{QStringLiteral("mm"), 1e-3};
inline const Unit centimetre{QStringLiteral("cm"), 1e-2};
inline const Unit metre{QStringLiteral("m"), 1.0};

inline const Unit inch{QStringLiteral("in"), 0.0254};

inline const Quantity filmThickness{{micrometre, {QStringLiteral("um"), 1e-6}, millimetre, {QStringLiteral("mil"), 25.4e-6}, inch}, 4};
inline const Quantity length{
    {millimetre, centimetre, metre, micrometre, {QStringLiteral("um"), 1e-6}, inch, {QStringLiteral("ft"), 0.3048}}, 5};
inline const Quantity area{{{QStringLiteral("cm²"), 1e-4},
                            {QStringLiteral("cm2"), 1e-4},
                            {QStringLiteral("dm²"), 1e-2},
                            {QStringLiteral("dm2"), 1e-2},
                            {QStringLiteral("m²"), 1.0},
                            {QStringLiteral("m2"), 1.0},
                            {QStringLiteral("in²"), 0.0254 * 0.0254},
                            {QStringLiteral("in2"), 0.0254 * 0.0254},
                            {QStringLiteral("ft²"), 0.3048 * 0.3048},
                            {QStringLiteral("ft2"), 0.3048 * 0.3048}},
                           5};
inline const Quantity share{{{QStringLiteral("%"), 0.01}}, 4};
inline const Quantity frequency{{{QStringLiteral("kHz"), 1e3}, {QStringLiteral("Hz"), 1.0}, {QStringLiteral("MHz"), 1e6}}, 5};
inline const Quantity oscillation{{{QStringLiteral("Hz"), 1.0}, {QStringLiteral("kHz"), 1e3}}, 4};
inline const Quantity pulseDuration{{{QStringLiteral("ns"), 1e-9}, {QStringLiteral("µs"), 1e-6}, {QStringLiteral("us"), 1e-6}}, 4};
inline const Quantity travelSpeed{{{QStringLiteral("mm/s"), 1e-3},
                                   {QStringLiteral("cm/s"), 1e-2},
                                   {QStringLiteral("m/s"), 1.0},
                                   {QStringLiteral("m/min"), 1.0 / 60},
                                   {QStringLiteral("in/s"), 0.0254}},
                                  4,
                                  true};
inline const Quantity scanSpeed{{{QStringLiteral("m/s"), 1.0}, {QStringLiteral("mm/s"), 1e-3}}, 4};
inline const Quantity angle{{{QStringLiteral("°"), 0.017453292519943295}, {QStringLiteral("deg"), 0.017453292519943295}}, 4};
inline const Quantity temperature{{{QStringLiteral("°C"), 1.0}, {QStringLiteral("C"), 1.0}}, 4};
inline const Quantity duration{{{QStringLiteral("s"), 1.0}, {QStringLiteral("min"), 60.0}}, 4};
inline const Quantity power{{{QStringLiteral("W"), 1.0}, {QStringLiteral("kW"), 1e3}}, 5};
inline const Quantity supply{{{QStringLiteral("kW"), 1e3}, {QStringLiteral("W"), 1.0}}, 4};
inline const Quantity airFlow{{{QStringLiteral("m³/h"), 1.0 / 3600},
                               {QStringLiteral("m3/h"), 1.0 / 3600},
                               {QStringLiteral("l/s"), 1e-3},
                               {QStringLiteral("cfm"), 0.3048 * 0.3048 * 0.3048 / 60}},
                              4};
inline const Quantity perHour{{{QStringLiteral("/ h"), 1.0}}, 6};
inline const Quantity count{{{QString(), 1.0}}, 4};

}  // namespace quantities
}  // namespace bw
