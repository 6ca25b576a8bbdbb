// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/add_machine_page.h"

#include "core/start/typical_machines.h"
#include "ui/fields/chooser.h"
#include "ui/fields/problem_label.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr int addFormWidth = 420;
constexpr double usualPower_W = 200, usualSpot_m = 100e-6;

}  // namespace

AddMachinePage::AddMachinePage(QWidget* parent)
    : QWidget(parent),
      m_name(new QLineEdit),
      m_kind(new Chooser(tr("Kind"), tr("Pulsed lasers strike many short blows; continuous ones burn steadily."))),
      m_watts(new QuantityField({tr("Power"), tr("The machine's rated power."), quantities::power, 1, 20000, 50})),
      m_spot(new QuantityField({tr("Spot"), tr("Diameter of the spot at focus (1/e²)."), quantities::filmThickness, 5e-6, 0.02, 1e-5})),
      m_make(new QPushButton(tr("Add machine"))),
      m_problem(new ProblemLabel) {
  setObjectName(QStringLiteral("addMachinePage"));
  auto* hint = new QuietLabel(
      tr("The rest begins as on a typical machine of that kind. Change it on the next page, or calibrate the machine by measuring."));
  hint->setWordWrap(true);
  auto* sheet = new QWidget;
  sheet->setMaximumWidth(addFormWidth);
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  column->addWidget(new SectionHeader(tr("Add a machine")));
  column->addWidget(makeFields());
  column->addWidget(hint);
  column->addWidget(m_problem);
  column->addWidget(makeButtons());
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, space::large, 0, 0);
  all->addWidget(sheet);
  all->addStretch();
  setFocusProxy(m_name);
  reset();
}

QWidget* AddMachinePage::makeFields() {
  m_name->setObjectName(QStringLiteral("newMachineName"));
  m_name->setAccessibleName(tr("Name"));
  m_name->setToolTip(tr("What you call this machine."));
  m_name->setMaxLength(100);
  m_kind->setObjectName(QStringLiteral("newMachineKind"));
  m_kind->add(QString::number(static_cast<int>(MachineKind::Pulsed)), tr("pulsed"));
  m_kind->add(QString::number(static_cast<int>(MachineKind::Continuous)), tr("continuous"));
  m_watts->setObjectName(QStringLiteral("newMachineWatts"));
  m_spot->setObjectName(QStringLiteral("newMachineSpot"));
  auto* form = new Form;
  form->addRow(tr("Name"), m_name);
  form->addRow(tr("Kind"), m_kind);
  form->addRow(tr("Power"), m_watts);
  form->addRow(tr("Spot"), m_spot);
  return form;
}

QWidget* AddMachinePage::makeButtons() {
  m_make->setObjectName(QStringLiteral("makeMachine"));
  m_make->setProperty("primary", true);
  auto* cancel = new QPushButton(tr("Cancel"));
  cancel->setObjectName(QStringLiteral("cancelMachine"));
  auto* buttons = new QWidget;
  auto* row = new QHBoxLayout(buttons);
  row->setContentsMargins(0, 0, 0, 0);
  row->addStretch();
  row->addWidget(cancel);
  row->addWidget(m_make);
  connect(m_make, &QPushButton::clicked, this, &AddMachinePage::make);
  connect(m_name, &QLineEdit::returnPressed, this, &AddMachinePage::make);
  connect(cancel, &QPushButton::clicked, this, &AddMachinePage::cancelled);
  return buttons;
}

void AddMachinePage::reset() {
  for (QuantityField* field : {m_watts, m_spot}) field->dropTyped();
  m_name->clear();
  m_kind->setCurrentIndex(0);
  m_watts->setValue(usualPower_W);
  m_spot->setValue(usualSpot_m);
  if (!m_readOnly) say({});
}

void AddMachinePage::setReadOnly(bool readOnly) {
  if (readOnly == m_readOnly) return;
  m_readOnly = readOnly;
  m_make->setEnabled(!readOnly);
  say(readOnly ? tr("The library can only be read. Open one of your own to add a machine.") : QString());
}

void AddMachinePage::say(const QString& problem) { m_problem->say(problem); }

void AddMachinePage::make() {
  if (!m_make->isEnabled()) return;
  const QString name = m_name->text().trimmed();
  if (name.isEmpty()) return say(tr("Give the machine a name."));
  if (!m_watts->problem().isEmpty() || !m_spot->problem().isEmpty()) return;
  Machine machine = machineLike(static_cast<MachineKind>(m_kind->id().toInt()), m_watts->value()->likely, m_spot->value()->likely);
  machine.name = name.toStdString();
  emit made(machine);
}

}  // namespace bw
