// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/setup_sheet.h"

#include "core/library/measured_card.h"
#include "ui/fields/chooser.h"
#include "ui/fields/problem_label.h"
#include "ui/own/fit_plot.h"
#include "ui/own/proposal_model.h"
#include "ui/own/setup_readings.h"
#include "ui/style/format.h"

#include <QDate>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QPushButton>
#include <QTabWidget>
#include <QTableView>

#include <numeric>

namespace bw {
namespace {

SetupReadings::Kind tableOf(FitKind kind) {
  switch (kind) {
    case FitKind::SpotByEnergy:
    case FitKind::SpotByLineEnergy:
    case FitKind::SpotByPower:
    case FitKind::Caustic:
      return SetupReadings::Marks;
    case FitKind::LitWidth:
    case FitKind::LitHeight:
      return SetupReadings::Frame;
    case FitKind::Turnaround:
      return SetupReadings::Times;
    case FitKind::Power:
      return SetupReadings::Powers;
    case FitKind::Ceiling:
      break;
  }
  return SetupReadings::Rates;
}

QString nameOf(const FitPicture& picture) {
  switch (picture.kind) {
    case FitKind::SpotByEnergy:
    case FitKind::SpotByLineEnergy:
    case FitKind::SpotByPower: {
      const double offset_mm = picture.at.value_or(0) * 1e3;
      return offset_mm == 0 ? SetupSheet::tr("Marks in focus") : SetupSheet::tr("Marks %1 mm from focus").arg(format::number(offset_mm, 3));
    }
    case FitKind::Caustic:
      return SetupSheet::tr("The beam along its axis");
    case FitKind::LitWidth:
      return SetupSheet::tr("Lit width");
    case FitKind::LitHeight:
      return SetupSheet::tr("Lit height");
    case FitKind::Turnaround:
      return SetupSheet::tr("Turnaround");
    case FitKind::Power:
      return SetupSheet::tr("Delivered power");
    case FitKind::Ceiling:
      break;
  }
  return picture.at ? SetupSheet::tr("Pulses of %1 ns").arg(format::number(*picture.at * 1e9, 3)) : SetupSheet::tr("Power by rate");
}

}  // namespace

void SetupSheet::open(const OwnRecord& machine, bool readOnly) {
  const bool other = idOf(machine.entry) != idOf(m_machine.entry);
  m_machine = machine;
  m_readOnly = readOnly;
  m_title->setText(tr("Set up “%1” by measuring").arg(bw::nameOf(machine.entry)));
  if (other) {
    for (int kind = 0; kind < SetupReadings::KindCount; ++kind) {
      ReadingsModel& table = m_readings->table(static_cast<SetupReadings::Kind>(kind));
      QList<int> rows(table.rowCount());
      std::iota(rows.begin(), rows.end(), 0);
      table.removeRows(rows);
      table.undoStack().clear();
    }
    m_applied = false;
    m_problem->say({});
  }
  request();
}

void SetupSheet::setToday(const QString& date) {
  if (m_date->text().isEmpty()) m_date->setText(date);
}

void SetupSheet::leave(const std::function<void()>& go) {
  const bool lost = !m_readings->isEmpty() && !m_applied;
  if (lost && !m_asker->askYes(tr("Leave the readings"), tr("The readings of this sheet were not applied and are lost."), tr("Leave them"),
                               tr("Stay")))
    return;
  go();
}

void SetupSheet::request() {
  if (!std::holds_alternative<MachineCard>(m_machine.entry)) return;
  m_applied = false;
  Measurements measurements = m_readings->measurements();
  measurements.meterUncertainty = m_meterUncertainty;
  m_runner.request(std::get<MachineCard>(m_machine.entry).machine, measurements);
  refreshButtons();
}

void SetupSheet::showResult(const SetupResult& result) {
  m_result = result;
  m_changes->setChanges(result.proposal.machine, result.proposal.changes);
  QStringList remarks;
  for (const std::string& remark : result.proposal.remarks) {
    QString sentence = QString::fromStdString(remark) + '.';
    sentence[0] = sentence[0].toUpper();
    remarks << sentence;
  }
  const QString text = remarks.join(' ');
  m_remarks->setText(text);
  m_remarks->setVisible(!text.isEmpty());
  m_table->setVisible(!result.proposal.changes.empty());
  showPicture();
  refreshButtons();
}

/// The fits of the kind whose table is open.
void SetupSheet::showPicture() {
  const auto kind = static_cast<SetupReadings::Kind>(m_tabs->currentIndex());
  const QString before = m_which->id();
  std::vector<const FitPicture*> fits;
  for (const FitPicture& picture : m_result.pictures) {
    if (tableOf(picture.kind) == kind) fits.push_back(&picture);
  }
  m_which->clear();
  for (std::size_t i = 0; i < fits.size(); ++i) m_which->add(nameOf(*fits[i]), nameOf(*fits[i]));
  const int at = std::max(0, m_which->findData(before));
  if (!fits.empty()) m_which->setCurrentIndex(at);
  m_which->setVisible(fits.size() > 1);
  m_plot->setPicture(fits.empty() ? std::nullopt : std::optional(*fits[static_cast<std::size_t>(at)]),
                     tr("No readings yet. Type them at the left, or paste a block: the fit is drawn at once."));
}

QString SetupSheet::dateProblem() const {
  return QDate::fromString(m_date->text(), Qt::ISODate).isValid() ? QString() : tr("“Measured on” is no date; year-month-day is accepted.");
}

void SetupSheet::refreshButtons() {
  const bool any = !m_changes->taken().empty();
  const QString date = dateProblem();
  m_apply->setEnabled(any && !m_readOnly && date.isEmpty() && !m_applied);
  m_state->setText(m_readOnly                                 ? tr("The library can only be read.")
                   : m_applied                                ? tr("Applied.")
                   : m_changes->rowCount() == 0               ? tr("Nothing would change yet.")
                   : !date.isEmpty()                          ? date
                   : !any                                     ? tr("Nothing is ticked.")
                   : m_machine.origin == EntryOrigin::Shipped ? tr("Makes your own copy of the shipped machine and notes the check.")
                                                              : tr("Changes your machine and notes the check."));
}

void SetupSheet::apply() {
  const MachineCard card = withMeasured(std::get<MachineCard>(m_machine.entry), m_changes->taken(), m_date->text().toStdString(),
                                        m_initials->text().trimmed().toStdString());
  m_apply->setEnabled(false);
  m_actions.save(card, m_machine.revision, [self = QPointer(this), id = card.machine.id](const QString& problem) {
    if (!self) return;
    self->m_problem->say(problem);
    self->refreshButtons();
    if (!problem.isEmpty()) return;
    self->m_applied = true;
    self->refreshButtons();
    emit self->applied(QString::fromStdString(id));
  });
}

}  // namespace bw
