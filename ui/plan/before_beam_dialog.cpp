// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/before_beam_dialog.h"

#include "core/files/library_file.h"
#include "core/job/hazards.h"
#include "core/values/unusable.h"
#include "ui/document/edits.h"
#include "ui/fields/initials.h"
#include "ui/plan/form.h"
#include "ui/plan/precaution_row.h"
#include "ui/style/theme.h"

#include <QDate>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

constexpr int listWidth = 600, listHeight = 620;
constexpr int longestName = 60;

QFrame* thinLine() {
  auto* line = new QFrame;
  line->setFixedHeight(1);
  line->setAutoFillBackground(true);
  line->setBackgroundRole(QPalette::Mid);
  return line;
}

std::vector<Precaution> openFirst(std::vector<Precaution> all) {
  std::ranges::stable_partition(all, [](const Precaution& one) { return !one.cleared; });
  return all;
}

bool alike(const std::vector<Precaution>& a, const std::vector<Precaution>& b) {
  return std::ranges::equal(a, b, [](const Precaution& x, const Precaution& y) { return x.id == y.id && x.cleared == y.cleared; });
}

}  // namespace

BeforeBeamDialog::BeforeBeamDialog(ProjectDocument& document, QWidget* parent)
    : QDialog(parent),
      m_document(document),
      m_count(new QLabel),
      m_name(new QLineEdit(lastInitials())),
      m_hint(new QuietLabel),
      m_scroll(new QScrollArea) {
  setObjectName(QStringLiteral("beforeBeamDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Before the beam is on"));
  m_count->setObjectName(QStringLiteral("beforeBeamCount"));
  m_count->setWordWrap(true);
  m_name->setObjectName(QStringLiteral("beforeBeamName"));
  m_name->setAccessibleName(tr("Your name or initials"));
  m_name->setPlaceholderText(tr("Name or initials of whoever settles an item"));
  m_name->setMaxLength(longestName);
  m_hint->setWordWrap(true);
  m_hint->setText(tr("This list is no permission. Local rules, licensed trades and the laser safety officer decide."));
  m_scroll->setWidgetResizable(true);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* form = new Form;
  form->addRow(tr("Your name"), m_name);
  auto* buttons = new QDialogButtonBox;
  buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole)->setAutoDefault(false);  // Enter in the name closes nothing
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  column->setSpacing(space::large);
  column->addWidget(m_count);
  column->addWidget(form);
  column->addWidget(m_scroll, 1);
  column->addWidget(m_hint);
  column->addWidget(buttons);
  resize(listWidth, listHeight);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(m_name, &QLineEdit::textChanged, this, &BeforeBeamDialog::nameChanged);
  connect(&m_document, &ProjectDocument::changed, this, &BeforeBeamDialog::follow, Qt::QueuedConnection);
  follow();
  if (m_name->text().isEmpty()) m_name->setFocus();
}

void BeforeBeamDialog::follow() {
  std::vector<Precaution> all;
  try {
    all = openFirst(precautions(m_document.project(), m_document.plan(), shippedLibrary()));
  } catch (const Unusable& problem) {
    m_count->setText(QString::fromUtf8(problem.what()));
    return;
  }
  const auto open = openCount(all), stops = openStops(all).size();
  m_count->setText(open == 0   ? tr("All of it is settled.")
                   : stops > 0 ? tr("Do not start. %1 open; what stops the work comes first.").arg(open)
                               : tr("%1 open. Who ticks an item answers for it.").arg(open));
  if (m_rows.empty() || !alike(all, m_shown)) list(all);
}

void BeforeBeamDialog::list(const std::vector<Precaution>& all) {
  m_shown = all;
  m_rows.clear();
  const int place = m_scroll->verticalScrollBar()->value();
  auto* sheet = new QWidget;
  sheet->setBackgroundRole(QPalette::Base);
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  for (const Precaution& one : all) {
    if (!m_rows.empty()) column->addWidget(thinLine());
    column->addWidget(makeRow(one));
  }
  column->addStretch(1);
  m_scroll->setWidget(sheet);
  QTimer::singleShot(0, m_scroll, [this, place] { m_scroll->verticalScrollBar()->setValue(place); });
  nameChanged();
}

PrecautionRow* BeforeBeamDialog::makeRow(const Precaution& precaution) {
  auto* row = new PrecautionRow(precaution);
  connect(row, &PrecautionRow::settled, this, [this, row] {
    rememberInitials(m_name->text().trimmed());
    edits::settlePrecaution(m_document, row->precaution(), clearance(row->reason()));
  });
  connect(row, &PrecautionRow::tested, this, [this, row](Presence found) {
    rememberInitials(m_name->text().trimmed());
    const QString note = found == Presence::Yes ? tr("found") : tr("none found");
    edits::settleTest(m_document, row->precaution(), found, clearance(note), shippedLibrary());
  });
  connect(row, &PrecautionRow::reopened, this, [this, row] { edits::reopenPrecaution(m_document, row->precaution()); });
  m_rows.push_back(row);
  return row;
}

void BeforeBeamDialog::nameChanged() {
  const bool named = !m_name->text().trimmed().isEmpty();
  for (PrecautionRow* row : m_rows) row->setNamed(named);
}

Clearance BeforeBeamDialog::clearance(const QString& note) const {
  Clearance made;
  made.by = m_name->text().trimmed().toStdString();
  made.date = QDate::currentDate().toString(Qt::ISODate).toStdString();
  made.note = note.toStdString();
  return made;
}

}  // namespace bw
