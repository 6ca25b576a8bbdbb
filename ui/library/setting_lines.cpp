// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/setting_lines.h"

#include "core/scan/frame.h"
#include "ui/fields/quantity_text.h"

#include <QCoreApplication>

namespace bw {
namespace {

struct SettingLines {
  Q_DECLARE_TR_FUNCTIONS(SettingLines)
};

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
    add(SettingLines::tr("Power"),
        m_machine ? SettingLines::tr("%1 of %2").arg(share, withUnit(m_machine->ratedPower_W, quantities::power)) : share);
    if (pulsed()) {
      add(SettingLines::tr("Repetition rate"), m_settings.repetitionRate_Hz, quantities::frequency);
      add(SettingLines::tr("Pulse duration"), m_settings.pulseDuration_s, quantities::pulseDuration);
    } else if (m_settings.dutyFraction < 1) {
      add(SettingLines::tr("Duty"), m_settings.dutyFraction, quantities::share);
    }
    if (m_settings.focusOffset_m != 0) add(SettingLines::tr("Focus offset"), m_settings.focusOffset_m, quantities::length);
  }

  void addFrame() {
    const Pattern pattern = m_settings.pattern;
    add(SettingLines::tr("Pattern"), patternWord(pattern));
    const QString width = withUnit(m_settings.width_m, quantities::length);
    if (hasHeight(pattern)) {
      add(SettingLines::tr("Scan frame"),
          SettingLines::tr("%1 × %2").arg(writeQuantity(Range::exact(m_settings.width_m), quantities::length),
                                          withUnit(m_settings.height_m, quantities::length)));
    } else {
      add(isRound(pattern) ? SettingLines::tr("Diameter") : SettingLines::tr("Line length"), width);
    }
    if (needsTwoAxes(pattern))
      add(isRound(pattern) ? SettingLines::tr("Ring spacing") : SettingLines::tr("Line spacing"), m_settings.lineSpacing_m,
          quantities::length);
    if (!swings(pattern)) {
      add(SettingLines::tr("Scan speed"), m_settings.scanSpeed_m_s, quantities::scanSpeed);
    } else if (m_settings.oscillationRate_Hz) {
      add(SettingLines::tr("Oscillation"), *m_settings.oscillationRate_Hz, quantities::oscillation);
    }
    if (m_settings.oneWay) add(SettingLines::tr("Lines run"), SettingLines::tr("one way"));
    if (m_settings.edgeTrim_m > 0) add(SettingLines::tr("Edge trim"), m_settings.edgeTrim_m, quantities::length);
    if (!swings(pattern) && pattern != Pattern::Spiral)
      add(SettingLines::tr("In turns"), m_settings.beamOffInTurns ? SettingLines::tr("beam off") : SettingLines::tr("beam on"));
  }

  void addHand() {
    add(SettingLines::tr("Travel"), m_settings.travelSpeed_m_s, quantities::travelSpeed);
    add(SettingLines::tr("Direction"), withUnit(m_settings.travelAngle_rad, quantities::angle) + SettingLines::tr(" from the lines"));
    add(SettingLines::tr("Step-over"), m_settings.stepOver_m, quantities::length);
    if (m_settings.swathOrder == SwathOrder::EverySecond) add(SettingLines::tr("Swaths"), SettingLines::tr("every second one first"));
  }

  void addPasses() {
    add(SettingLines::tr("Passes"), QString::number(m_settings.passes));
    add(SettingLines::tr("Pause after each"),
        m_settings.pause_s > 0 ? withUnit(m_settings.pause_s, quantities::duration) : SettingLines::tr("none"));
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
      return SettingLines::tr("single line");
    case Pattern::Sine:
      return SettingLines::tr("swinging line");
    case Pattern::Raster:
      return SettingLines::tr("lines back and forth");
    case Pattern::Crossed:
      return SettingLines::tr("lines crossed");
    case Pattern::Circles:
      return SettingLines::tr("rings");
    case Pattern::Spiral:
      return SettingLines::tr("spiral");
    case Pattern::TwoSine:
      break;
  }
  return SettingLines::tr("two swings");
}

}  // namespace bw
