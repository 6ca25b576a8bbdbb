// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/settings_form.h"

#include "core/assess/machine_limits.h"
#include "core/scan/frame.h"
#include "core/values/setting_bounds.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/plan/travel_field.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QToolButton>

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {
namespace {

struct PatternName {
  Pattern pattern;
  const char* name;
  int axes;
};

constexpr PatternName patternNames[] = {
    {Pattern::Line, QT_TRANSLATE_NOOP("SettingsForm", "single line"), 1},
    {Pattern::Sine, QT_TRANSLATE_NOOP("SettingsForm", "swinging line"), 1},
    {Pattern::Raster, QT_TRANSLATE_NOOP("SettingsForm", "lines back and forth"), 2},
    {Pattern::Crossed, QT_TRANSLATE_NOOP("SettingsForm", "lines crossed"), 2},
    {Pattern::Circles, QT_TRANSLATE_NOOP("SettingsForm", "rings"), 2},
    {Pattern::Spiral, QT_TRANSLATE_NOOP("SettingsForm", "spiral"), 2},
    {Pattern::TwoSine, QT_TRANSLATE_NOOP("SettingsForm", "two swings"), 2},
};

QString idOf(Pattern pattern) { return QString::number(static_cast<int>(pattern)); }

QString idOfDuration(double duration_s) { return QString::number(duration_s, 'g', 12); }

constexpr double leastWidth_m = 1e-4, leastScanSpeed_m_s = 1e-3;  // slower or narrower nobody means

/// The machine's head with the step's optic, as far as the machine has it.
ScanHead headOf(const Machine& machine, const Plan& plan, std::size_t step) {
  const std::optional<std::string> optic = plan.steps.empty() ? std::nullopt : plan.steps.at(step).optic;
  const bool has = optic && std::ranges::find(machine.optics, *optic, &Optic::id) != machine.optics.end();
  return has ? withOptic(machine, optic).scan : machine.scan;
}

}  // namespace

SettingsForm::SettingsForm(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_form(new Form), m_all(makeFoldButton(QStringLiteral("allSettings"), tr("All settings"))),
      m_step(new Chooser(tr("Step"), tr("A plan may have several steps, such as a bulk step and a clean-up."))) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addWidget(new SectionHeader(tr("Settings"), m_all));
  column->addWidget(m_form);
  m_step->setObjectName(QStringLiteral("step"));
  m_stepRow = m_form->addRow(tr("Step"), m_step);
  addPulse();
  addLines();
  addHand();
  addPasses();
  connect(m_all, &QToolButton::toggled, this, &SettingsForm::refreshVisibility);
  connect(m_step, &Chooser::chosen, this, [this](const QString& id) {
    m_document.show({m_document.place().plan, static_cast<std::size_t>(id.toULongLong())});
  });
  connect(&m_document, &ProjectDocument::changed, this, &SettingsForm::refresh);
  refresh(Change::Everything);
}

void SettingsForm::addPulse() {
  m_form->addGroup(tr("Pulse"));
  m_power = makeNumber("power", &Settings::powerFraction, tr("change the power"),
                       {tr("Power"), tr("Share of the machine's rated power."), quantities::share, 0.01, bounds::share.high, 0.01});
  add(tr("Power"), m_power, Importance::Everyday);
  m_repetition = makeNumber("repetitionRate", &Settings::repetitionRate_Hz, tr("change the repetition rate"),
                            {tr("Repetition rate"), tr("Pulses a second; at the same power, more pulses mean weaker ones."),
                             quantities::frequency, bounds::repetitionRate_Hz.low, bounds::repetitionRate_Hz.high, 1e4});
  add(tr("Repetition rate"), m_repetition, Importance::Everyday, Need::Pulsed);
  m_pulseDuration = new Chooser(tr("Pulse duration"), tr("How long each pulse lasts; shorter pulses peak higher and heat less deeply."));
  m_pulseDuration->setObjectName(QStringLiteral("pulseDuration"));
  connect(m_pulseDuration, &Chooser::chosen, this, [this](const QString& id) {
    edits::setSetting(m_document, &Settings::pulseDuration_s, tr("change the pulse duration"), id.toDouble());
  });
  add(tr("Pulse duration"), m_pulseDuration, Importance::Seldom, Need::Pulsed);
  add(tr("Focus offset"),
      makeNumber("focusOffset", &Settings::focusOffset_m, tr("change the focus offset"),
                 {tr("Focus offset"), tr("How far the part lies from the focus; away from it the spot is wider and weaker."),
                  quantities::length, bounds::focusOffset_m.low, bounds::focusOffset_m.high, 1e-3}),
      Importance::Seldom);
  add(tr("Duty"),
      makeNumber("duty", &Settings::dutyFraction, tr("change the duty"),
                 {tr("Duty"), tr("Share of the time a gated beam is on."), quantities::share, 0.01, bounds::share.high, 0.05}),
      Importance::Seldom, Need::Continuous);
}

void SettingsForm::addLines() {
  m_form->addGroup(tr("Lines"));
  m_frameRow = add(tr("Scan frame"), makeFrameFields(), Importance::Everyday);
  m_spacing = makeNumber(
      "lineSpacing", &Settings::lineSpacing_m, tr("change the line spacing"),
      {tr("Line spacing"), tr("Distance between neighbouring scan lines."), quantities::length, 1e-6, bounds::lineSpacing_m.high, 1e-5});
  m_spacingRow = add(tr("Line spacing"), m_spacing, Importance::Everyday, Need::Spacing);
  m_pattern = new Chooser(tr("Pattern"), tr("The path the head draws inside its frame; only what this machine can do."));
  m_pattern->setObjectName(QStringLiteral("pattern"));
  connect(m_pattern, &Chooser::chosen, this, [this](const QString& id) { edits::setPattern(m_document, static_cast<Pattern>(id.toInt())); });
  add(tr("Pattern"), m_pattern, Importance::Seldom);
  m_scanSpeed = makeNumber("scanSpeed", &Settings::scanSpeed_m_s, tr("change the scan speed"),
                           {tr("Scan speed"), tr("Speed of the spot along a scan line."), quantities::scanSpeed, leastScanSpeed_m_s,
                            bounds::scanSpeed_m_s.high, 0.1});
  add(tr("Scan speed"), m_scanSpeed, Importance::Seldom, Need::ScanSpeed);
  m_oscillation = new QuantityField({tr("Oscillation"), tr("Swings a second of a head that swings instead of drawing lines."),
                                     quantities::oscillation, 0.1, bounds::oscillationRate_Hz.high, 10});
  m_oscillation->setObjectName(QStringLiteral("oscillationRate"));
  connect(m_oscillation, &QuantityField::edited, this,
          [this](Range rate, EditKind kind) { edits::setOscillationRate(m_document, rate.likely, kind); });
  add(tr("Oscillation"), m_oscillation, Importance::Seldom, Need::Swinging);
  m_oneWay = makeSwitch("oneWay", tr("Scan one way"), tr("Every line runs the same way; the head returns with the beam off."), edits::setOneWay);
  add({}, m_oneWay, Importance::Seldom, Need::OneWay);
  add(tr("Edge trim"),
      makeNumber("edgeTrim", &Settings::edgeTrim_m, tr("change the edge trim"),
                 {tr("Edge trim"), tr("The beam stays off within this distance of a line's ends."), quantities::length,
                  bounds::edgeTrim_m.low, bounds::edgeTrim_m.high, 1e-4}),
      Importance::Seldom, Need::EdgeTrim);
  m_beamOff = makeSwitch("beamOffInTurns", tr("Beam off in turns"), tr("The beam is off while the head reverses, so that edges get no extra dose."),
                         edits::setBeamOffInTurns);
  add({}, m_beamOff, Importance::Seldom, Need::Turns);
}

QWidget* SettingsForm::makeFrameFields() {
  m_width = makeNumber("frameWidth", &Settings::width_m, tr("change the frame's width"),
                       {tr("Frame width"), {}, quantities::length, leastWidth_m, bounds::frameWidth_m.high, 1e-3});
  m_height = makeNumber("frameHeight", &Settings::height_m, tr("change the frame's height"),
                        {tr("Frame height"), {}, quantities::length, bounds::frameHeight_m.low, bounds::frameHeight_m.high, 1e-3});
  return besideEachOther(m_width, m_height);
}

void SettingsForm::addPasses() {
  m_form->addGroup(tr("Passes"));
  m_passes = new QuantityField({tr("Passes"), tr("How many times the whole area is gone over."), quantities::count, bounds::fewestPasses,
                                bounds::mostPlannedPasses, 1, false, false, true});
  m_passes->setObjectName(QStringLiteral("passes"));
  connect(m_passes, &QuantityField::edited, this, [this](Range passes, EditKind kind) {
    edits::setPasses(m_document, static_cast<int>(std::lround(passes.likely)), kind);
  });
  add(tr("Passes"), m_passes, Importance::Everyday);
  add(tr("Pause"),
      makeNumber("pause", &Settings::pause_s, tr("change the pause"),
                 {tr("Pause"), tr("Waiting after each pass, so that the part can cool."), quantities::duration, bounds::pause_s.low,
                  bounds::pause_s.high, 10}),
      Importance::Seldom);
}

Form::Row SettingsForm::add(const QString& caption, QWidget* field, Importance importance, Need need) {
  m_entries.push_back({m_form->addRow(caption, field), importance, need});
  return m_entries.back().row;
}

QuantityField* SettingsForm::makeNumber(const char* objectName, double Settings::*member, const QString& undoText,
                                        QuantityField::Description description) {
  auto* field = new QuantityField(std::move(description));
  field->setObjectName(QLatin1String(objectName));
  connect(field, &QuantityField::edited, this,
          [=, this](Range value, EditKind kind) { edits::setSetting(m_document, member, undoText, value.likely, kind); });
  m_numbers.push_back({field, member});
  return field;
}

QCheckBox* SettingsForm::makeSwitch(const char* objectName, const QString& text, const QString& tip, void (*edit)(ProjectDocument&, bool)) {
  auto* box = new QCheckBox(text);
  box->setObjectName(QLatin1String(objectName));
  box->setToolTip(tip);
  connect(box, &QCheckBox::clicked, this, [this, edit](bool checked) { edit(m_document, checked); });
  return box;
}

void SettingsForm::refresh(Changes changes) {
  const bool otherMachine = changes & (Change::Machines | Change::Plans | Change::Shown);
  if (!otherMachine && !(changes & Change::Settings)) return;
  if (otherMachine) refreshMachine();
  refreshValues();
  refreshVisibility();
}

void SettingsForm::refreshMachine() {
  m_step->clear();
  const auto& steps = m_document.plan().steps;
  for (std::size_t index = 0; index < steps.size(); ++index) m_step->add(QString::number(index), QString::fromStdString(steps[index].name));
  m_stepRow.setVisible(!steps.empty());
  m_pattern->clear();
  m_pulseDuration->clear();
  const Machine* machine = m_document.machine();
  const int axes = machine ? machine->scan.axes : 2;
  for (const PatternName& entry : patternNames) {
    if (entry.axes <= axes) m_pattern->add(idOf(entry.pattern), tr(entry.name));
  }
  if (!machine) return;
  for (const double duration_s : machine->pulseDurations_s) {
    m_pulseDuration->add(idOfDuration(duration_s), withUnit(duration_s, quantities::pulseDuration));
  }
  const ScanHead head = headOf(*machine, m_document.plan(), m_document.place().step);
  const auto most = [](double stated, const SettingBounds& bounds) { return stated > 0 ? stated : bounds.high; };
  m_repetition->setLimits(machine->repetitionRate_Hz[0], most(machine->repetitionRate_Hz[1], bounds::repetitionRate_Hz));
  m_width->setLimits(leastWidth_m, most(head.maxWidth_m, bounds::frameWidth_m));
  m_height->setLimits(bounds::frameHeight_m.low, most(head.maxHeight_m, bounds::frameHeight_m));
  m_scanSpeed->setLimits(leastScanSpeed_m_s, most(head.maxSpeed_m_s, bounds::scanSpeed_m_s));
}

void SettingsForm::refreshValues() {
  const Settings& settings = m_document.settings();
  for (const Number& number : m_numbers) number.field->setValue(settings.*number.member);
  if (m_document.stepCount() > 1) m_step->setId(QString::number(m_document.place().step));
  const Machine* machine = m_document.machine();
  if (machine && machine->kind == MachineKind::Pulsed) {
    const QString id = idOfDuration(settings.pulseDuration_s);
    if (m_pulseDuration->findData(id) < 0) m_pulseDuration->add(id, withUnit(settings.pulseDuration_s, quantities::pulseDuration));
    m_pulseDuration->setId(id);
  }
  for (const PatternName& entry : patternNames) {
    if (entry.pattern == settings.pattern && m_pattern->findData(idOf(entry.pattern)) < 0) m_pattern->add(idOf(entry.pattern), tr(entry.name));
  }
  m_pattern->setId(idOf(settings.pattern));
  m_oscillation->setValue(settings.oscillationRate_Hz.value_or(0));
  m_passes->setValue(settings.passes);
  m_oneWay->setChecked(settings.oneWay);
  m_beamOff->setChecked(settings.beamOffInTurns);
  m_swathOrder->setId(QString::number(static_cast<int>(settings.swathOrder)));
  m_direction->setAngle(settings.travelAngle_rad);
  m_pace->setText(paceText(settings.travelSpeed_m_s));
  const std::optional<Hand>& hand = m_document.plan().hand;
  if (hand && hand->speedWander) {
    m_wander->setValue(*hand->speedWander);
  } else {
    m_wander->setUnknown();
  }
}

void SettingsForm::refreshVisibility() {
  for (const Entry& entry : m_entries) {
    entry.row.setVisible((m_all->isChecked() || entry.importance == Importance::Everyday) && isNeeded(entry.need));
  }
  refreshFrame(m_document.settings().pattern);
}

/// A frame is a line, a rectangle or a disc.
void SettingsForm::refreshFrame(Pattern pattern) {
  const QString lines = tr("What the head fills with lines before it starts again: length of the lines, and height of the stack of lines.");
  const bool tall = hasHeight(pattern), round = isRound(pattern);
  m_width->showUnit(!tall);
  m_height->setVisible(tall);
  m_height->parentWidget()->findChild<QLabel*>(QStringLiteral("times"))->setVisible(tall);
  m_width->setName(round ? tr("Diameter") : tr("Frame width"), round ? tr("Width of the outermost ring.") : lines);
  m_height->setName(tr("Frame height"), lines);
  m_frameRow.name(round ? tr("Diameter") : tr("Scan frame"), m_width->edit()->toolTip());
  m_spacing->setName(round ? tr("Ring spacing") : tr("Line spacing"),
                     round ? tr("Distance between neighbouring rings.") : tr("Distance between neighbouring scan lines."));
  m_spacingRow.name(round ? tr("Ring spacing") : tr("Line spacing"), m_spacing->edit()->toolTip());
}

bool SettingsForm::isNeeded(Need need) const {
  const Machine* machine = m_document.machine();
  const Pattern pattern = m_document.settings().pattern;
  const bool pulsed = !machine || machine->kind == MachineKind::Pulsed;
  switch (need) {
    case Need::Always: return true;
    case Need::Pulsed: return pulsed;
    case Need::Continuous: return !pulsed;
    case Need::ScanSpeed:
      return !swings(pattern);
    case Need::Swinging:
      return swings(pattern);
    case Need::Spacing:
      return needsTwoAxes(pattern);
    case Need::OneWay:
      return !swings(pattern) && !isRound(pattern);
    case Need::EdgeTrim:
      return !isRound(pattern);
    case Need::Turns:
      return !swings(pattern) && pattern != Pattern::Spiral;
  }
  return true;
}

}  // namespace bw
