// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/carry_over.h"

#include "core/assess/machine_limits.h"
#include "core/beam/caustic.h"
#include "core/beam/delivery.h"
#include "core/beam/profile.h"
#include "core/scan/frame.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double keptWithin = 0.05;

bool pulsed(const Machine& machine) { return machine.kind == MachineKind::Pulsed; }

/// To as many digits as are dialled.
double dialled(double value, int digits = 3) {
  if (!(value > 0)) return value;
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - digits + 1);
  return std::round(value / unit) * unit;
}

/// What the settings do on the part, whatever machine does it.
struct Effect {
  BeamResult beam;
  double scan_m_s = 0;
  double pulseStep_m = 0;  // 0 without pulses
  double passage_J_m2 = 0;
  double dose_J_m2 = 0;  // 0 for a hand that stands still
};

Effect effectOf(const Machine& machine, const Settings& s) {
  Effect work;
  work.beam = deliver(machine, s);
  work.scan_m_s = topScanSpeed_m_s(s);
  if (pulsed(machine)) work.pulseStep_m = work.scan_m_s / s.repetitionRate_Hz;
  work.passage_J_m2 = work.beam.meanPower_W / (work.scan_m_s * work.beam.spotDiameter_m);
  const double lit = buildFrame(s, machine.scan).litFraction();
  if (s.travelSpeed_m_s > 0) work.dose_J_m2 = work.beam.meanPower_W * lit / (s.travelSpeed_m_s * s.stepOver_m);
  return work;
}

/// Carries settings over step by step, remembering what stood in the way.
class Carrier {
 public:
  Carrier(const Machine& from, const Settings& settings, const Machine& to)
      : m_from(from), m_old(settings), m_to(to), m_new(settings), m_before(effectOf(from, settings)) {}

  CarryOver carry() {
    m_new.dutyFraction = pulsed(m_to) ? 1 : m_old.dutyFraction;
    if (pulsed(m_from) && pulsed(m_to))
      keepPulses();
    else
      keepPassages();
    keepFrame();
    keepDose();
    return {m_new, told()};
  }

 private:
  double focusedRadius_m() const { return m_to.spotDiameter_m / 2; }
  double energyFor(double fluence_J_m2, double radius_m) const {
    return fluence_J_m2 / SpotProfile(m_to.beamProfile).peakPerWatt_1_m2(radius_m);
  }

  /// So far out of focus that the spot has that radius, or in focus where it is wider anyway.
  void standOff(double radius_m) {
    const Caustic caustic(focusedRadius_m(), m_to.M2, m_to.wavelength_m);
    const double ratio = radius_m / focusedRadius_m();
    m_new.focusOffset_m = ratio > 1 + keptWithin ? dialled(caustic.rayleighRange_m() * std::sqrt(ratio * ratio - 1), 2) : 0;
    m_radius = caustic.radiusAt_m(m_new.focusOffset_m);
  }

  void setMeanPower(double power_W) {
    m_new.powerFraction = std::min(1.0, power_W / fullPower_W(m_to) / m_new.dutyFraction);
    if (m_new.powerFraction < 1) m_new.powerFraction = dialled(m_new.powerFraction);
  }

  /// The scan speed, or the oscillation that makes it; what the head can do of it.
  double scanAt(double speed_m_s) {
    const double most = m_to.scan.maxSpeed_m_s > 0 ? m_to.scan.maxSpeed_m_s : speed_m_s, done = std::min(speed_m_s, most);
    if (swings(m_new.pattern))
      m_new.oscillationRate_Hz = m_old.oscillationRate_Hz.value_or(0) * done / m_before.scan_m_s * m_old.width_m / m_new.width_m;
    else
      m_new.scanSpeed_m_s = dialled(done);
    return done;
  }

  void keepPulses() {
    m_new.pulseDuration_s = withinMachine(m_to, m_old).pulseDuration_s;
    const double fluence = *m_before.beam.peakFluence_J_m2, radius = m_before.beam.spotDiameter_m / 2;
    const auto [slowest, fastest] = m_to.repetitionRate_Hz;
    const double strongest = std::min(largestPulseEnergy_J(m_to, m_new.pulseDuration_s), fullPower_W(m_to) / std::max(slowest, 1.0));
    standOff(radius * std::sqrt(std::min(1.0, strongest / energyFor(fluence, radius))));
    const double energy = std::min(strongest, energyFor(fluence, m_radius));
    if (energy < energyFor(fluence, m_radius) * (1 - keptWithin))
      m_whyFluence = "its pulses hold " + text::number(strongest * 1e3) + " mJ at most, its spot is " + text::length(2 * m_radius);

    const double scale = m_radius / radius, step = m_before.pulseStep_m * scale;
    double rate = std::min(m_before.beam.meanPower_W, fullPower_W(m_to)) / energy;
    if (fastest > 0) rate = std::clamp(rate, slowest, fastest);
    m_new.width_m = withinMachine(m_to, m_new).width_m;
    const double done = scanAt(rate * step);
    if (done < rate * step * (1 - keptWithin)) {
      rate = std::max(slowest, done / step);  // a slow head: fewer pulses rather than closer ones
      m_whyOverlap = "the head does " + text::number(m_to.scan.maxSpeed_m_s) + " m/s";
    }
    m_new.repetitionRate_Hz = dialled(rate);
    setMeanPower(energy * m_new.repetitionRate_Hz);
    m_new.lineSpacing_m = dialled(m_old.lineSpacing_m * scale);
  }

  /// No pulses: the energy of a passage instead. Two continuous machines at the same power, so at the same irradiance; between pulses and
  /// none at full power, for a passage that is quick is nearer to a pulse.
  void keepPassages() {
    standOff(m_before.beam.spotDiameter_m / 2);
    setMeanPower(pulsed(m_from) || pulsed(m_to) ? fullPower_W(m_to) : m_before.beam.meanPower_W);
    if (pulsed(m_to)) {
      m_new.repetitionRate_Hz = m_to.repetitionRate_Hz[1] > 0 ? m_to.repetitionRate_Hz[1] : m_old.repetitionRate_Hz;
      m_new.pulseDuration_s = m_to.pulseDurations_s.empty() ? m_old.pulseDuration_s : m_to.pulseDurations_s.back();
    } else {
      m_new.pulseDuration_s = m_new.repetitionRate_Hz = 0;
    }
    m_new.width_m = withinMachine(m_to, m_new).width_m;
    const double power = deliver(m_to, m_new).meanPower_W, wanted = power / (m_before.passage_J_m2 * 2 * m_radius), done = scanAt(wanted);
    if (done < wanted * (1 - keptWithin)) setMeanPower(power * done / wanted);  // a slow head: less power keeps the passage
    m_new.lineSpacing_m = dialled(m_old.lineSpacing_m * 2 * m_radius / m_before.beam.spotDiameter_m);
  }

  void keepFrame() {
    m_new = withinMachine(m_to, m_new);
    m_new.stepOver_m = dialled(m_old.stepOver_m * m_new.width_m / m_old.width_m);
    if (m_new.edgeTrim_m > 0) m_new.edgeTrim_m = dialled(m_old.edgeTrim_m * m_new.width_m / m_old.width_m);
  }

  void keepDose() {
    if (!(m_before.dose_J_m2 > 0)) return;
    const Effect now = effectOf(m_to, m_new);
    m_new.travelSpeed_m_s = dialled(m_new.travelSpeed_m_s * now.dose_J_m2 / m_before.dose_J_m2);
  }

  static Carried compared(const std::string& quantity, double before, double after, std::string (*say)(double), std::string why) {
    const bool kept = std::abs(after - before) <= keptWithin * before * (1 + 1e-9);
    return {quantity, before > 0 ? say(before) : "none", after > 0 ? say(after) : "none", kept, kept ? "" : std::move(why)};
  }

  std::vector<Carried> told() const {
    using namespace text;
    const Effect now = effectOf(m_to, m_new);
    const auto spots = [](double share) { return number(share, 2) + " spots"; };
    const double before = m_before.beam.spotDiameter_m, after = now.beam.spotDiameter_m;
    const std::string pulses = "one machine pulses, the other does not";
    std::vector<Carried> list;
    if (pulsed(m_from) || pulsed(m_to)) {
      const bool both = pulsed(m_from) && pulsed(m_to);
      list.push_back(compared(
          "pulse duration", pulsed(m_from) ? m_old.pulseDuration_s : 0, pulsed(m_to) ? m_new.pulseDuration_s : 0,
          [](double s) { return number(s * 1e9) + " ns"; }, both ? "the machine has no such pulses" : pulses));
      list.push_back(compared("peak fluence", m_before.beam.peakFluence_J_m2.value_or(0), now.beam.peakFluence_J_m2.value_or(0), fluence,
                              both ? m_whyFluence : pulses));
      list.push_back(
          compared("pulse to pulse", m_before.pulseStep_m / before, now.pulseStep_m / after, +spots, both ? m_whyOverlap : pulses));
    }
    list.push_back(compared("spot", before, after, length, after > before ? "in focus it is no finer" : "a wider one would be too weak"));
    if (hasHeight(m_new.pattern) || isRound(m_new.pattern))
      list.push_back(
          compared("line to line", m_old.lineSpacing_m / before, m_new.lineSpacing_m / after, +spots, "the frame allows no more"));
    if (!pulsed(m_from) || !pulsed(m_to))
      list.push_back(compared("energy of one passage", m_before.passage_J_m2, now.passage_J_m2, fluence, "the machine's power and speed"));
    list.push_back(compared("frame width", m_old.width_m, m_new.width_m, length, "the head reaches no further"));
    if (hasHeight(m_old.pattern))
      list.push_back(compared("frame height", m_old.height_m, hasHeight(m_new.pattern) ? m_new.height_m : 0, length,
                              hasHeight(m_new.pattern) ? "the head reaches no further" : "the head moves along one line only"));
    if (m_before.dose_J_m2 > 0) list.push_back(compared("dose per pass", m_before.dose_J_m2, now.dose_J_m2, fluence, "the frame differs"));
    list.push_back(compared(
        "mean power", m_before.beam.meanPower_W, now.beam.meanPower_W, [](double w) { return number(w, 3) + " W"; },
        "it sets the time, not what happens to the coat"));
    return list;
  }

  const Machine& m_from;
  const Settings& m_old;
  const Machine& m_to;
  Settings m_new;
  Effect m_before;
  double m_radius = 0;
  std::string m_whyFluence, m_whyOverlap;
};

}  // namespace

CarryOver carryOver(const Machine& from, const Settings& settings, const Machine& to) { return Carrier(from, settings, to).carry(); }

}  // namespace bw
