// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/substance.h"

namespace bw {

// Conductivity and specific heat of metals against temperature, theta in degrees Celsius:
//   carbon steel       EN 1993-1-2:2005 3.4.1.2, 3.4.1.3   20 to 1200
//   stainless steel    EN 1993-1-2:2005 Annex C            20 to 1200
//   aluminium          EN 1999-1-2:2007 3.3                20 to 500 (3xxx and 6xxx; 5xxx and 7xxx)
// Outside that range the nearest end's value holds. The curve is scaled so that it passes through the metal's own value at
// 20 degrees; a Constant curve is that value.

double conductivity_W_mK(ThermalCurve curve, double at20_W_mK, double temperature_C);
double specificHeat_J_kgK(ThermalCurve curve, double at20_J_kgK, double temperature_C);

/// Heat needed from 20 degrees: the integral of the specific heat, exact.
double enthalpy_J_kg(ThermalCurve curve, double specificHeatAt20_J_kgK, double temperature_C);

}  // namespace bw
