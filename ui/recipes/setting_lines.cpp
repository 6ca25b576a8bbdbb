// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/setting_lines.h"

#include "core/scan/frame.h"
#include "ui/fields/quantity_text.h"

#include <QCoreApplication>

namespace bw {
namespace {

QString tr(const char* text) { return QCoreApplication::translate("SettingLines", text); }

class Lines {
 public:
  Lines(const Settings& settings, const Machine* machine) : m_settings(settings), m_machine(machine) {}

  std::vector<SettingLine> all() {
    addPulse();
    addFrame();
    addHand();
    addPasses();
    return std::move(m_lines);
  }

 private:
  void add(const QString& name, const QString& value) { m_lines.push_back({name, value}); }
  void add(const QString& name, double value, const Quantity& quantity) { add(name, withUnit(value, quantity)); }
  bool pulsed() const { return !m_machine || m_machine->kind == MachineKind::Pulsed; }

  void addPulse() {
    const QString share = withUnit(m_settings.powerFraction, quantities::share);
    add(tr("Power"), m_machine ? tr("%1 of %2").arg(share, withUnit(m_machine->ratedPower_W, quantities::power)) : share);
    if (pulsed()) {
      add(tr("Repetition rate"), m_settings.repetitionRate_Hz, quantities::frequency);
      add(tr("Pulse duration"), m_settings.pulseDuration_s, quantities::pulseDuration);
    } else if (m_settings.dutyFraction < 1) {
      add(tr("Duty"), m_settings.dutyFraction, quantities::share);
    }
    if (m_settings.focusOffset_m != 0) add(tr("Focus offset"), m_settings.focusOffset_m, quantities::length);
  }

  void addFrame() {
    const Pattern pattern = m_settings.pattern;
    add(tr("Pattern"), patternWord(pattern));
    const QString width = withUnit(m_settings.width_m, quantities::length);
    if (hasHeight(pattern)) {
      add(tr("Scan frame"), tr("%1 × %2").arg(writeQuantity(Range::exact(m_settings.width_m), quantities::length),
                                              withUnit(m_settings.height_m, quantities::length)));
    } else {
      add(isRound(pattern) ? tr("Diameter") : tr("Line length"), width);
    }
    if (needsTwoAxes(pattern))
      add(isRound(pattern) ? tr("Ring spacing") : tr("Line spacing"), m_settings.lineSpacing_m, quantities::length);
    if (!swings(pattern)) {
      add(tr("Scan speed"), m_settings.scanSpeed_m_s, quantities::scanSpeed);
    } else if (m_settings.oscillationRate_Hz) {
      add(tr("Oscillation"), *m_settings.oscillationRate_Hz, quantities::oscillation);
    }
    if (m_settings.oneWay) add(tr("Lines run"), tr("one way"));
    if (m_settings.edgeTrim_m > 0) add(tr("Edge trim"), m_settings.edgeTrim_m, quantities::length);
    if (!swings(pattern) && pattern != Pattern::Spiral) add(tr("In turns"), m_settings.beamOffInTurns ? tr("beam off") : tr("beam on"));
  }

  void addHand() {
    add(tr("Travel"), m_settings.travelSpeed_m_s, quantities::travelSpeed);
    add(tr("Direction"), withUnit(m_settings.travelAngle_rad, quantities::angle) + tr(" from the lines"));
    add(tr("Step-over"), m_settings.stepOver_m, quantities::length);
    if (m_settings.swathOrder == SwathOrder::EverySecond) add(tr("Swaths"), tr("every second one first"));
  }

  void addPasses() {
    add(tr("Passes"), QString::number(m_settings.passes));
    add(tr("Pause after each"), m_settings.pause_s > 0 ? withUnit(m_settings.pause_s, quantities::duration) : tr("none"));
  }

  const Settings& m_settings;
  const Machine* m_machine;
  std::vector<SettingLine> m_lines;
};

}  // namespace

std::vector<SettingLine> settingLines(const Settings& settings, const Machine* machine) { return Lines(settings, machine).all(); }

QString patternWord(Pattern pattern) {
  switch (pattern) {
    case Pattern::Line:
      return tr("single line");
    case Pattern::Sine:
      return tr("swinging line");
    case Pattern::Raster:
      return tr("lines back and forth");
    case Pattern::Crossed:
      return tr("lines crossed");
    case Pattern::Circles:
      return tr("rings");
    case Pattern::Spiral:
      return tr("spiral");
    case Pattern::TwoSine:
      break;
  }
  return tr("two swings");
}

}  // namespace bw
