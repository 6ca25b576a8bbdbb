// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/import_dialog.h"

#include "ui/exchange/decision_panel.h"
#include "ui/exchange/exchange_words.h"
#include "ui/fields/problem_label.h"
#include "ui/library/page_parts.h"

#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>
#include <QTextDocument>
#include <QVBoxLayout>

namespace bw {
namespace {

enum Page { Reading, Unusable, Preview };

constexpr QSize small(620, 170);  // a sentence or two
constexpr QSize large(1080, 760);
constexpr int margin = 40;        // of the window that shows around it
constexpr int noteShown = 300;    // letters; the rest is in the tooltip
constexpr std::size_t mostNotices = 3;

QStringList fewOf(const std::vector<std::string>& notices) {
  QStringList few;
  for (std::size_t i = 0; i < std::min(notices.size(), mostNotices); ++i) few << words::oneLine(notices[i]);
  if (notices.size() > mostNotices) few << ImportDialog::tr("And %1 more.").arg(notices.size() - mostNotices);
  return few;
}

}  // namespace

ImportDialog::ImportDialog(const QString& file, const QString& whyNot, QWidget* parent)
    : QDialog(parent), m_file(file), m_whyNot(whyNot), m_model(new ImportModel(this)) {
  build();
  connectAll();
  resize(small);
  check();
}

/// Over the middle of the window, which shows around it.
void ImportDialog::enlarge() {
  const QWidget* around = parentWidget() ? parentWidget()->window() : this;
  const QSize size = parentWidget() ? large.boundedTo(around->size() - QSize(margin, margin)) : large;
  const QPoint middle = around->geometry().center();
  setGeometry(QRect(middle - QPoint(size.width() / 2, size.height() / 2), size));
}

void ImportDialog::connectAll() {
  connect(m_model, &ImportModel::decided, this, [this] {
    showCurrent();
    check();
  });
  connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &ImportDialog::showCurrent);
  connect(m_panel, &DecisionPanel::chosen, this,
          [this](ImportDecision decision) { m_model->decide(m_table->currentIndex().row(), decision); });
  connect(m_next, &QPushButton::clicked, this, [this] { chooseRow(m_model->nextOpen(m_table->currentIndex().row())); });
  connect(m_another, &QPushButton::clicked, this, &ImportDialog::anotherWanted);
  connect(m_doIt, &QPushButton::clicked, this, [this] {
    m_problem->say({});
    emit bringInWanted();
  });
}

void ImportDialog::showPlan(std::shared_ptr<const PreparedImport> prepared) {
  const std::shared_ptr<const PreparedImport> before = m_model->prepared();
  const ImportLine* line = m_model->line(m_table->currentIndex().row());
  const std::optional<ImportLine> current = line ? std::optional(*line) : std::nullopt;
  ImportDecisions decisions;
  if (before) decisions = stillFitting(m_model->decisions(), before->plan, prepared->plan);
  const std::size_t dropped = m_model->decisions().size() - decisions.size();
  m_model->setPlan(std::move(prepared), std::move(decisions));
  m_pages->setCurrentIndex(Preview);
  if (!before) enlarge();
  if (before) {
    const QString anew = tr("The library was changed meanwhile, so all was compared anew.");
    m_meanwhile->setText(
        dropped == 0 ? anew
                     : anew + QLatin1Char(' ') +
                           (dropped == 1 ? tr("One decision no longer fits and has to be made again where it is open.")
                                         : tr("%1 decisions no longer fit and have to be made again where they are open.").arg(dropped)));
  }
  m_meanwhile->setVisible(before != nullptr);
  showHead();
  const int row = current ? m_model->rowOf(current->part, current->id) : 0;
  chooseRow(std::max(row, 0));
  if (!before) m_table->setFocus();
  check();
}

void ImportDialog::showHead() {
  const PreparedImport& prepared = *m_model->prepared();
  const Bundle& bundle = *prepared.plan.bundle;
  m_origin->setText(words::origin(bundle));
  const QString note = QString::fromStdString(bundle.note).simplified();
  m_note->setText(note.size() > noteShown ? note.left(noteShown) + QStringLiteral("…") : note);
  m_note->setToolTip(note.size() > noteShown ? Qt::convertFromPlainText(note) : QString());
  m_note->setVisible(!note.isEmpty());
  m_counts->setText(words::counts(prepared.plan));
  while (QLayoutItem* old = m_notices->takeAt(0)) {
    delete old->widget();
    delete old;
  }
  if (!prepared.plan.notices.empty())
    m_notices->addWidget(parts::note(fewOf(prepared.plan.notices), Status::NotKnown, QStringLiteral("importNotices")));
  m_notices->parentWidget()->setVisible(!prepared.plan.notices.empty());
  m_forAll->setVisible(prepared.plan.hasConflicts());
  m_backup->setText(prepared.backupDate.isEmpty()
                        ? tr("There is no undo for this, and no backup of the library yet.")
                        : tr("There is no undo for this; the newest backup of the library is of %1.").arg(prepared.backupDate));
}

void ImportDialog::showUnusable(const QString& sentence) {
  m_unusable->say(words::plain(sentence));
  m_pages->setCurrentIndex(Unusable);
  m_another->setFocus();
  check();
}

void ImportDialog::showProblem(const QString& sentence) { m_problem->say(sentence); }

void ImportDialog::setWorking(bool working) {
  m_working = working;
  m_pages->setEnabled(!working);
  check();
}

void ImportDialog::showCurrent() {
  const int row = m_table->currentIndex().row();
  m_panel->showLine(m_model->line(row), m_model->decision(row));
}

void ImportDialog::chooseRow(int row) {
  if (row < 0) return;
  m_table->setCurrentIndex(m_model->index(row, ImportModel::Entry));
  m_table->scrollTo(m_table->currentIndex());
}

QString ImportDialog::missing() const {
  if (m_pages->currentIndex() != Preview) return {};
  if (m_working) return tr("Bringing it in…");
  if (!m_whyNot.isEmpty()) return m_whyNot;
  const std::size_t open = m_model->openCount();
  if (open == 1) return tr("One entry that differs is still open: keep mine, take theirs, or keep both.");
  if (open > 1) return tr("%1 entries that differ are still open: decide each, or the same for all of them.").arg(open);
  if (m_model->rowCount() == 0) return tr("Nothing is in the bundle.");
  if (prepared()->plan.count(ImportStatus::Identical) == prepared()->plan.lines.size())
    return tr("Your library has all of it already: there is nothing to bring in.");
  return {};
}

void ImportDialog::check() {
  const bool preview = m_pages->currentIndex() == Preview;
  const QString sentence = missing();
  m_missing->setText(sentence);
  m_missing->setVisible(!sentence.isEmpty());
  m_doIt->setVisible(preview);
  m_doIt->setEnabled(preview && sentence.isEmpty());
  m_doIt->setToolTip(sentence);
  m_backup->setVisible(preview && m_whyNot.isEmpty());
  m_another->setVisible(m_pages->currentIndex() == Unusable);
  m_next->setEnabled(m_model->openCount() > 0);
  for (QPushButton* button : m_forAll->findChildren<QPushButton*>()) button->setEnabled(m_model->openCount() > 0);
}

}  // namespace bw
