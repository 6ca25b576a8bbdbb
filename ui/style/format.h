// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

/// Numbers to text for the screen: two significant digits (three where the trade needs them), with unit, in the user's locale.
/// What is stored or exported is never rounded by these.
namespace bw::format {

/// A number rounded to so many significant digits, without exponent, in the default QLocale.
QString number(double value, int digits = 2);

QString length(double length_m);             // "45 µm", "1.2 mm", "1.5 m"
QString micrometres(double length_m);        // always µm
QString millimetres(double length_m);        // always mm
QString area(double area_m2);                // "180 cm²", "0.23 m²"
QString dose(double dose_J_m2);              // "12 J/cm²"
QString temperature(double temperature_C);   // "146 °C", whole degrees
QString temperatureRise(double rise_K);      // "26 °C"
QString duration(double duration_s);         // "45 s", "65 min", "1 h 50 min"
QString rate(double secondsPerA4);           // "4.2 min per A4"
QString money(double amount, const std::string& currency);  // "42 EUR"
QString percent(double share);                              // "12 %", "under 0.1 %"
QString power(double power_W);                              // "300 W", "1.45 kW"
QString energy(double energy_J);             // "1.2 mJ"
QString speed(double speed_m_s);             // "8 mm/s", "9 m/s"
QString frequency(double frequency_Hz);      // "240 kHz"
QString count(double number);                // "4"

}  // namespace bw::format
