// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/machine_limits.h"

#include "core/beam/delivery.h"
#include "core/job/room.h"
#include "core/scan/frame.h"
#include "core/text/text.h"
#include "core/values/unusable.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

using namespace text;

class Findings {
 public:
  void failIf(bool holds, const std::string& message) { add(holds, Status::Fails, message); }
  void warnIf(bool holds, const std::string& message) { add(holds, Status::Near, message); }
  std::vector<MachineFinding> take() { return std::move(m_found); }

 private:
  void add(bool holds, Status status, const std::string& message) {
    if (holds) m_found.push_back({status, message});
  }
  std::vector<MachineFinding> m_found;
};

/// Three digits at most, without zeros that say nothing: limits are often round numbers.
std::string plain(double value) {
  std::string digits = number(value, 3);
  if (digits.find('.') == std::string::npos || digits.find('e') != std::string::npos) return digits;
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

constexpr double slack = 1 + 1e-9;

bool listed(const std::vector<double>& values, double value) {
  return values.empty() || std::ranges::any_of(values, [&](double v) { return std::abs(v - value) < 1e-3 * v; });
}

double nearestDuration_s(const Machine& machine, double duration_s) {
  const auto& listed = machine.pulseDurations_s;
  return listed.empty() ? duration_s : *std::ranges::min_element(listed, {}, [&](double t) { return std::abs(std::log(t / duration_s)); });
}

void checkPulses(Findings& found, const Machine& machine, const Settings& s) {
  const auto [low, high] = machine.repetitionRate_Hz;
  const bool limited = high > 0;
  found.failIf(limited && (s.repetitionRate_Hz > high * slack || s.repetitionRate_Hz * slack < low),
               "Repetition rate " + plain(s.repetitionRate_Hz / 1e3) + " kHz: the machine does " + plain(low / 1e3) + " to " +
                   plain(high / 1e3) + " kHz.");
  found.failIf(!listed(machine.pulseDurations_s, s.pulseDuration_s),
               "The machine has no pulse duration of " + plain(s.pulseDuration_s * 1e9) + " ns; the nearest is " +
                   plain(nearestDuration_s(machine, s.pulseDuration_s) * 1e9) + " ns.");
  const double asked = s.powerFraction * fullPower_W(machine);
  const double most = largestPulseEnergy_J(machine, s.pulseDuration_s) * s.repetitionRate_Hz;
  found.warnIf(asked > most * slack,
               "Pulses are at their greatest energy: " + plain(most) + " W of the " + plain(asked) + " W asked for arrive.");
}

constexpr double endless = std::numeric_limits<double>::infinity();
double orEndless(double limit) { return limit > 0 ? limit : endless; }

/// A disc must fit on both axes.
double greatestWidth_m(const ScanHead& head, Pattern pattern) {
  return isRound(pattern) ? std::min(orEndless(head.maxWidth_m), orEndless(head.maxHeight_m)) : orEndless(head.maxWidth_m);
}

double greatestSpacing_m(const Settings& s) {
  if (isRound(s.pattern)) return s.width_m / 2;
  if (!hasHeight(s.pattern)) return endless;
  return s.pattern == Pattern::Crossed ? std::min(orEndless(s.height_m), s.width_m) : orEndless(s.height_m);
}

/// Three digits, rounded down: the largest that would do, still doing.
double downTo3(double value) {
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2);
  return std::floor(value / unit * slack) * unit;
}

std::string mm(double value_m) { return plain(value_m * 1e3) + " mm"; }

void checkReach(Findings& found, const ScanHead& head, const Settings& s) {
  const double widest = greatestWidth_m(head, s.pattern), spacing = greatestSpacing_m(s);
  found.failIf(s.width_m > widest * slack,
               "Frame width " + mm(s.width_m) + ": the head reaches " + mm(widest) + (isRound(s.pattern) ? " on both axes." : "."));
  found.failIf(hasHeight(s.pattern) && s.height_m > orEndless(head.maxHeight_m) * slack,
               "Frame height " + mm(s.height_m) + ": the head reaches " + mm(head.maxHeight_m) + ".");
  found.failIf(needsTwoAxes(s.pattern) && head.axes < 2,
               "The head moves along one axis only: a single line or a swinging line is all it can draw.");
  found.failIf(s.lineSpacing_m > spacing * slack, "The line spacing is larger than " +
                                                      std::string(isRound(s.pattern) ? "the radius" : "the frame") +
                                                      ": the largest that would do is " + mm(downTo3(spacing)) + ".");
}

void checkSpeed(Findings& found, const ScanHead& head, const Settings& s) {
  const double top = topScanSpeed_m_s(s), most = orEndless(head.maxSpeed_m_s);
  const bool fails = top > most * slack;
  found.failIf(fails && !swings(s.pattern), "Scan speed " + plain(top) + " m/s: the head does " + plain(most) + " m/s.");
  found.failIf(fails && swings(s.pattern), "Scan speed up to " + plain(top) + " m/s: the head does " + plain(most) +
                                               " m/s; the fastest oscillation that would do is " +
                                               plain(downTo3(s.oscillationRate_Hz.value_or(0) * most / top)) + " Hz.");
  const double slowed = slowRadius_m(s, head);
  found.warnIf(isRound(s.pattern) && innerRadius_m(s) * slack < slowed, "Tighter than a radius of " + length(slowed) +
                                                                            " the head cannot follow at " + plain(s.scanSpeed_m_s) +
                                                                            " m/s: it slows down there, and burns deeper.");
}

void checkFrame(Findings& found, const Machine& machine, const Settings& s) {
  const double spot = deliver(machine, s).spotDiameter_m;
  found.warnIf(s.width_m < spot,
               "Frame width " + length(s.width_m) + ": narrower than the spot of " + length(spot) + ", each line burns in one place.");
  found.warnIf(hasHeight(s.pattern) && s.height_m < spot,
               "Frame height " + length(s.height_m) + ": lower than the spot of " + length(spot) + ", its lines fall on one another.");
  found.warnIf(s.pattern == Pattern::Circles && s.edgeTrim_m > 0,
               "Edge trim has no line ends to act on in circles: it only darkens the steps from one to the next.");
  found.warnIf(s.pattern == Pattern::Spiral && s.edgeTrim_m > 0, "Edge trim has no line ends to act on in a spiral: it darkens nothing.");
}

/// Water on the part and on the cover glass takes up the beam.
void checkDew(Findings& found, const Project& project, double air_C) {
  if (!project.site || !project.site->humidity) return;
  constexpr double never_C = -300;
  const double humidity = *project.site->humidity, dew_C = dewPoint_C(air_C, humidity).value_or(never_C);
  const double part_C = project.part.startTemperature_C;
  found.warnIf(part_C <= dew_C, "The part starts at " + temperature(part_C) + ", and air of " + temperature(air_C) + " and " +
                                    percent(humidity) + " humidity wets it from " + temperature(dew_C) +
                                    " down; a cover glass as cold gets wet too.");
}

void checkSurroundings(Findings& found, const Project& project, const Machine& machine) {
  const double ambient = project.site && project.site->ambient_C ? *project.site->ambient_C : project.part.ambientTemperature_C;
  found.failIf(machine.minAmbient_C && ambient < *machine.minAmbient_C,
               "The shop is at " + temperature(ambient) + "; the machine needs " + temperature(machine.minAmbient_C.value_or(0)) + ".");
  checkDew(found, project, ambient);
  if (!project.site || !project.site->supply_W || !machine.supplyPower_W) return;
  const double draw = *machine.supplyPower_W + machine.extraDraw_W.value_or(0);
  found.failIf(draw > *project.site->supply_W * slack,
               "The machine draws " + number(draw / 1e3) +
                   (project.site->generator ? " kW; the generator gives " : " kW; the supply gives ") +
                   number(*project.site->supply_W / 1e3) + " kW.");
}

}  // namespace

std::vector<MachineFinding> machineFindings(const Project& project, const Machine& machine, const Settings& settings) {
  Findings found;
  found.failIf(settings.powerFraction > slack, "Power is set above 100 %.");
  found.failIf(settings.dutyFraction > slack, "Duty is set above 100 %.");
  if (machine.kind == MachineKind::Pulsed) checkPulses(found, machine, settings);
  checkReach(found, machine.scan, settings);
  checkSpeed(found, machine.scan, settings);
  checkFrame(found, machine, settings);
  checkSurroundings(found, project, machine);
  return found.take();
}

Settings withinMachine(const Machine& machine, Settings s) {
  const ScanHead& head = machine.scan;
  s.powerFraction = std::min(s.powerFraction, 1.0);
  s.dutyFraction = std::min(s.dutyFraction, 1.0);
  if (machine.kind == MachineKind::Pulsed) {
    const auto [low, high] = machine.repetitionRate_Hz;
    if (high > 0) s.repetitionRate_Hz = std::clamp(s.repetitionRate_Hz, std::min(low, high), high);
    if (!listed(machine.pulseDurations_s, s.pulseDuration_s)) s.pulseDuration_s = nearestDuration_s(machine, s.pulseDuration_s);
  }
  if (head.axes < 2 && needsTwoAxes(s.pattern)) s.pattern = swings(s.pattern) ? Pattern::Sine : Pattern::Line;
  s.width_m = std::min(s.width_m, greatestWidth_m(head, s.pattern));
  if (hasHeight(s.pattern)) s.height_m = std::min(s.height_m, orEndless(head.maxHeight_m));
  s.lineSpacing_m = std::min(s.lineSpacing_m, greatestSpacing_m(s));
  const double most = orEndless(head.maxSpeed_m_s);
  if (!swings(s.pattern))
    s.scanSpeed_m_s = std::min(s.scanSpeed_m_s, most);
  else if (const double top = topScanSpeed_m_s(s); top > most * slack)
    s.oscillationRate_Hz = *s.oscillationRate_Hz * most / top;
  return s;
}

Machine withOptic(Machine machine, const std::optional<std::string>& opticId) {
  if (!opticId) return machine;
  const auto optic = std::ranges::find(machine.optics, *opticId, &Optic::id);
  if (optic == machine.optics.end())
    throw Unusable("machine \"" + machine.id + "\" has no optic \"" + *opticId + "\"; name one of its optics or none");
  machine.spotDiameter_m = optic->spotDiameter_m.value_or(machine.spotDiameter_m);
  machine.scan.maxWidth_m = optic->maxWidth_m.value_or(machine.scan.maxWidth_m);
  machine.scan.maxHeight_m = optic->maxHeight_m.value_or(machine.scan.maxHeight_m);
  return machine;
}

}  // namespace bw
