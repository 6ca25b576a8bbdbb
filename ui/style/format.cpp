// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/format.h"

#include "core/text/text.h"
#include "ui/style/units.h"

#include <QCoreApplication>
#include <QLocale>
#include <cmath>

namespace bw::format {

namespace {

QString withUnit(double value, int digits, const char* unit) { return number(value, digits) + noBreak + QString::fromUtf8(unit); }

QString whole(double value) { return QLocale().toString(std::round(value), 'f', 0); }

}  // namespace

QString number(double value, int digits) {
  if (!std::isfinite(value)) return QStringLiteral("–");
  if (value == 0) return QLocale().toString(0);
  const double magnitude = std::floor(std::log10(std::abs(value)));
  const double unit = std::pow(10.0, magnitude - digits + 1);
  const double rounded = std::round(value / unit) * unit;
  const int decimals = std::max(0, digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(rounded)) + 1e-9)));
  QLocale locale;
  if (std::abs(rounded) < 1e4) locale.setNumberOptions(QLocale::OmitGroupSeparator);
  return locale.toString(rounded, 'f', decimals);
}

QString length(double length_m) {
  const double size = std::abs(length_m);
  if (size < 0.9995e-3) return micrometres(length_m);
  return size < 0.9995 ? millimetres(length_m) : withUnit(length_m, 2, "m");
}

QString micrometres(double length_m) { return withUnit(length_m * 1e6, std::abs(length_m) >= 99.5e-6 ? 3 : 2, "µm"); }
QString millimetres(double length_m) { return withUnit(length_m * 1e3, std::abs(length_m) >= 99.5e-3 ? 3 : 2, "mm"); }
QString area(double area_m2) { return area_m2 < 0.0995 ? withUnit(area_m2 * 1e4, 3, "cm²") : withUnit(area_m2, 2, "m²"); }
QString dose(double dose_J_m2) { return withUnit(dose_J_m2 / J_m2_per_J_cm2, 2, "J/cm²"); }
QString temperature(double temperature_C) { return whole(temperature_C) + noBreak + QStringLiteral("°C"); }
QString temperatureRise(double rise_K) { return whole(rise_K) + noBreak + QStringLiteral("°C"); }

QString duration(double duration_s) {
  using Unit = text::ReadDuration::Unit;
  const auto [unit, value] = text::readDuration(duration_s);
  if (unit == Unit::Seconds) return withUnit(value, 2, "s");
  if (unit == Unit::Minutes) return (value == std::round(value) ? whole(value) : number(value, 2)) + noBreak + QStringLiteral("min");
  if (unit == Unit::Hours) return withUnit(value, 2, "h");
  const long long minutes = std::llround(value);
  const QString hours = QStringLiteral("%1%2h").arg(minutes / 60).arg(noBreak);
  return minutes % 60 == 0 ? hours : QStringLiteral("%1%2%3%2min").arg(hours, noBreak).arg(minutes % 60);
}

QString rate(double secondsPerA4) {
  if (secondsPerA4 < 59.5) return withUnit(secondsPerA4, 2, "s per A4");
  return withUnit(secondsPerA4 / 60, 2, "min per A4");
}

QString money(double amount, const std::string& currency) {
  const QString value = number(amount, std::abs(amount) >= 99.5 ? 3 : 2);
  return currency.empty() ? value : value + noBreak + QString::fromStdString(currency);
}

QString percent(double share) {
  const text::ReadShare read = text::readShare(share);
  const QString value = QLocale().toString(read.percent, 'f', read.decimals) + noBreak + QStringLiteral("%");
  if (read.bound == text::ReadShare::Bound::Under) return QCoreApplication::translate("Format", "under %1").arg(value);
  if (read.bound == text::ReadShare::Bound::Over) return QCoreApplication::translate("Format", "over %1").arg(value);
  return value;
}

/// Three digits, as machines are sold by them; a last 0 says nothing.
QString power(double power_W) {
  if (power_W < 999.5) return withUnit(power_W, 3, "W");
  const bool two = power_W < 9950 && std::abs(std::remainder(power_W, 100)) < 0.5;
  return withUnit(power_W / 1e3, two ? 2 : 3, "kW");
}
QString energy(double energy_J) { return energy_J < 0.9995 ? withUnit(energy_J * 1e3, 2, "mJ") : withUnit(energy_J, 2, "J"); }
QString speed(double speed_m_s) { return speed_m_s < 0.9995 ? withUnit(speed_m_s * 1e3, 2, "mm/s") : withUnit(speed_m_s, 2, "m/s"); }
QString frequency(double frequency_Hz) {
  return frequency_Hz < 999.5 ? withUnit(frequency_Hz, 2, "Hz") : withUnit(frequency_Hz / 1e3, 3, "kHz");
}
QString count(double number) { return whole(number); }

}  // namespace bw::format
