// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/words_dialog.h"

#include "ui/style/theme.h"

#include <QDialogButtonBox>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScreen>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

constexpr int dialogWidth = 520;
constexpr int linesHeight = 84;
constexpr int frameRoom = 40;  // of the screen's height, for the frame

}  // namespace

WordsDialog::WordsDialog(const QString& title, const QString& explanation, const QString& doIt, const std::vector<Field>& fields,
                         QWidget* parent)
    : QDialog(parent),
      m_column(new QVBoxLayout(this)),
      m_form(new Form),
      m_missing(new QuietLabel),
      m_buttons(new QDialogButtonBox),
      m_fields(fields) {
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(title);
  setMinimumWidth(dialogWidth);
  auto* explained = new QLabel(explanation);
  explained->setWordWrap(true);
  explained->setTextFormat(Qt::PlainText);
  m_missing->setWordWrap(true);
  m_missing->setObjectName(QStringLiteral("missing"));
  m_missing->setMinimumHeight(m_missing->fontMetrics().height());
  m_buttons->addButton(tr("Cancel"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  auto* button = m_buttons->addButton(doIt, QDialogButtonBox::AcceptRole);
  button->setObjectName(QStringLiteral("doIt"));
  button->setProperty("primary", true);
  m_column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  m_column->setSpacing(space::large);
  m_column->addWidget(explained);
  m_column->addWidget(m_form);
  m_column->addWidget(m_missing);
  m_column->addWidget(m_buttons);
  button->setDefault(true);  // once it is in the dialog, or Enter would press another
  for (const Field& field : fields) addField(field);
  focusFirst();
  connect(m_buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
  connect(m_buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  check();
}

/// The layout's own minimum knows nothing of sentences that need several lines at this width: boxes would lie on each other.
void WordsDialog::keepApart() {
  const int room = screen()->availableGeometry().height() - frameRoom;
  setMinimumHeight(std::min(m_column->totalMinimumHeightForWidth(width()), room));
}

void WordsDialog::showEvent(QShowEvent* event) {
  const int room = screen()->availableGeometry().height() - frameRoom;
  resize(width(), std::min(std::max(height(), m_column->totalHeightForWidth(width())), room));
  keepApart();
  QDialog::showEvent(event);
}

void WordsDialog::resizeEvent(QResizeEvent* event) {
  QDialog::resizeEvent(event);
  keepApart();
}

void WordsDialog::addField(const Field& field) {
  if (field.lines) {
    auto* edit = new QPlainTextEdit(field.proposal);
    edit->setObjectName(field.name);
    edit->setAccessibleName(field.caption);
    edit->setTabChangesFocus(true);
    edit->setFixedHeight(linesHeight);
    m_texts[field.name] = [edit] { return edit->toPlainText().trimmed(); };
    connect(edit, &QPlainTextEdit::textChanged, this, &WordsDialog::check);
    m_form->addRow(field.caption, edit);
    return;
  }
  auto* edit = new QLineEdit(field.proposal);
  edit->setObjectName(field.name);
  edit->setAccessibleName(field.caption);
  if (field.longest > 0) edit->setMaxLength(field.longest);
  m_texts[field.name] = [edit] { return edit->text().trimmed(); };
  connect(edit, &QLineEdit::textChanged, this, &WordsDialog::check);
  m_form->addRow(field.caption, edit);
}

/// On the first field that still has to be filled; else on the first one.
void WordsDialog::focusFirst() {
  if (m_fields.empty()) return;
  const auto wanted = std::ranges::find_if(m_fields, [this](const Field& field) { return field.needed && text(field.name).isEmpty(); });
  const Field& first = wanted == m_fields.end() ? m_fields.front() : *wanted;
  if (auto* field = findChild<QWidget*>(first.name)) field->setFocus();
}

QString WordsDialog::text(const QString& field) const {
  const auto found = m_texts.find(field);
  return found == m_texts.end() ? QString() : found->second();
}

void WordsDialog::insert(QWidget* widget) { m_column->insertWidget(1, widget, 1); }

void WordsDialog::demand(std::function<QString()> missing) {
  m_demand = std::move(missing);
  check();
}

QString WordsDialog::missing() const {
  if (m_demand) {
    if (const QString sentence = m_demand(); !sentence.isEmpty()) return sentence;
  }
  for (const Field& field : m_fields) {
    if (field.needed && text(field.name).isEmpty()) return tr("Still wanted: %1.").arg(field.caption.toLower());
  }
  return {};
}

void WordsDialog::check() {
  const QString sentence = missing();
  m_missing->setText(sentence.isEmpty() ? m_outcome : sentence);
  if (isVisible()) keepApart();
  m_buttons->findChild<QPushButton*>(QStringLiteral("doIt"))->setEnabled(sentence.isEmpty());
}

void WordsDialog::sayDoIt(const QString& words, const QString& outcome) {
  m_outcome = outcome;
  m_buttons->findChild<QPushButton*>(QStringLiteral("doIt"))->setText(words);
  check();
}

WordsDialog::Field initialsField() {
  return {QStringLiteral("initials"), WordsDialog::tr("Your initials"), lastInitials(), true, false, 12};
}

}  // namespace bw
