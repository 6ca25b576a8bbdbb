// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_dialog.h"

#include "ui/fields/chooser.h"
#include "ui/fields/problem_label.h"
#include "ui/plan/form.h"
#include "ui/readings/csv_words.h"
#include "ui/readings/preview_view.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace bw {
namespace {

constexpr QSize wanted(1000, 760);
constexpr int belowHeight = 136;

QLabel* wrapped(const char* name) {
  auto* label = new QLabel;
  label->setObjectName(QLatin1String(name));
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return label;
}

}  // namespace

CsvDialog::CsvDialog(const QString& path, QWidget* parent)
    : QDialog(parent),
      m_reader(new CsvReader(path, this)),
      m_problem(new ProblemLabel),
      m_remarks(wrapped("csvRemarks")),
      m_preview(new PreviewView) {
  setObjectName(QStringLiteral("csvDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  m_problem->setObjectName(QStringLiteral("csvProblem"));
  setWindowTitle(tr("Readings from %1").arg(m_reader->name()));
  const QWidget* window = parent->parentWidget() ? parent->parentWidget()->window() : parent;
  resize(wanted.boundedTo(window->size() - QSize(40, 40)));
  m_remarks->setForegroundRole(QPalette::PlaceholderText);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::large, space::wide, space::large);
  column->setSpacing(space::medium);
  column->addWidget(makeFormat());
  column->addWidget(m_remarks);
  column->addWidget(m_problem);
  column->addWidget(m_preview, 1);
  m_below = makeBelow();
  column->addWidget(m_below);
  column->addStretch();  // for a file that shows nothing
  column->addWidget(makeButtons());
  connect(m_reader, &CsvReader::studied, this, &CsvDialog::refresh);
  connect(m_preview, &PreviewView::columnsChosen, m_reader, &CsvReader::setColumns);
  m_remarks->setText(tr("Being read…"));
  m_preview->setFocus();
}

QWidget* CsvDialog::makeFormat() {
  auto* box = new QWidget;
  auto* line = new QHBoxLayout(box);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(space::medium);
  const auto chooser = [&](const char* name, const QString& caption, const QString& tip) {
    auto* made = new Chooser(caption, tip);
    made->setObjectName(QLatin1String(name));
    made->setEnabled(false);  // until the file was read
    line->addWidget(new QuietLabel(caption));
    line->addWidget(made, 1);
    return made;
  };
  m_purpose = chooser("csvPurpose", tr("The file is"), tr("Helps where columns have no header"));
  const std::pair<CsvPurpose, QString> purposes[] = {{CsvPurpose::Unknown, tr("not said")},
                                                     {CsvPurpose::Thickness, tr("a thickness gauge's")},
                                                     {CsvPurpose::Temperature, tr("a temperature log")}};
  for (const auto& [purpose, words] : purposes) m_purpose->add(QString::number(static_cast<int>(purpose)), words);
  m_separator = chooser("csvSeparator", tr("Separator"), tr("What stands between two cells"));
  for (const char separator : {';', ',', '\t', '\0'}) m_separator->add(QString::number(separator), words::separator(separator));
  m_decimal = chooser("csvDecimal", tr("Decimal mark"), tr("What stands before the tenths"));
  for (const char mark : {'.', ','}) m_decimal->add(QString::number(mark), words::decimalMark(mark));
  m_encoding = chooser("csvEncoding", tr("Encoding"), tr("How letters beyond English are written"));
  for (const Encoding encoding : {Encoding::Utf8, Encoding::Latin1, Encoding::Utf16Little, Encoding::Utf16Big})
    m_encoding->add(QString::number(static_cast<int>(encoding)), words::encoding(encoding));
  connect(m_purpose, &Chooser::chosen, this, [this](const QString& id) { m_reader->setPurpose(static_cast<CsvPurpose>(id.toInt())); });
  for (Chooser* one : {m_separator, m_decimal, m_encoding}) connect(one, &Chooser::chosen, this, &CsvDialog::chooseFormat);
  return box;
}

QWidget* CsvDialog::makeBelow() {
  auto* box = new QWidget;
  box->setFixedHeight(belowHeight);
  auto* line = new QHBoxLayout(box);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(space::wide);
  const auto part = [&](const QString& title, QWidget* content) {
    auto* column = new QVBoxLayout;
    column->setSpacing(space::small);
    auto* label = new QLabel(title);
    column->addWidget(label);
    column->addWidget(content, 1);
    column->addStretch();  // where there is nothing to show
    line->addLayout(column, 1);
    return label;
  };
  m_unread = new QListWidget;
  m_unread->setObjectName(QStringLiteral("csvUnread"));
  m_unread->setAccessibleName(tr("What could not be read"));
  m_unread->setWordWrap(true);
  m_unreadTitle = part(tr("Could not be read"), m_unread);
  m_summary = wrapped("csvSummary");
  m_summary->setAlignment(Qt::AlignTop);
  auto* area = new QScrollArea;
  area->setWidget(m_summary);
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setAccessibleName(tr("What the file says"));
  part(tr("What is entered into the trial"), area);
  return box;
}

QWidget* CsvDialog::makeButtons() {
  auto* box = new QWidget;
  auto* line = new QHBoxLayout(box);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(space::medium);
  m_means = new QCheckBox(tr("Only the mean of each kind"));
  m_means->setObjectName(QStringLiteral("csvMeans"));
  m_means->setToolTip(tr("As one reading, with the span that holds nine in ten of them"));
  m_keep = new QCheckBox(tr("Keep the file with the proof"));
  m_keep->setObjectName(QStringLiteral("csvKeep"));
  m_keep->setToolTip(tr("A copy is put beside the library, as photos are"));
  m_keep->setChecked(true);
  auto* cancel = new QPushButton(tr("Cancel"));
  cancel->setAutoDefault(false);
  m_enter = new QPushButton(tr("Enter them"));
  m_enter->setObjectName(QStringLiteral("doIt"));
  m_enter->setProperty("primary", true);
  m_enter->setEnabled(false);
  line->addWidget(m_means);
  line->addWidget(m_keep);
  line->addStretch(1);
  line->addWidget(cancel);
  line->addWidget(m_enter);
  m_enter->setDefault(true);
  connect(m_means, &QCheckBox::toggled, this, &CsvDialog::refreshSummary);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(m_enter, &QPushButton::clicked, this, &QDialog::accept);
  return box;
}

void CsvDialog::chooseFormat() {
  CsvFormat format;
  format.separator = static_cast<char>(m_separator->id().toInt());
  format.decimal = static_cast<char>(m_decimal->id().toInt());
  format.encoding = static_cast<Encoding>(m_encoding->id().toInt());
  m_reader->setFormat(format);
}

void CsvDialog::refresh() {
  const CsvStudy& study = m_reader->study();
  m_problem->say(study.problem);
  m_preview->setStudy(study);
  m_preview->setVisible(study.table != nullptr);
  m_below->setVisible(study.table != nullptr);
  m_means->setEnabled(!study.tooMany);
  if (study.tooMany) m_means->setChecked(true);
  refreshFormat();
  refreshProblems();
  refreshSummary();
}

void CsvDialog::refreshFormat() {
  const CsvStudy& study = m_reader->study();
  for (Chooser* one : {m_purpose, m_separator, m_decimal, m_encoding}) one->setEnabled(study.bytes != nullptr);
  QStringList remarks;
  if (study.table) {
    m_separator->setId(QString::number(study.table->format.separator));
    m_decimal->setId(QString::number(study.table->format.decimal));
    m_encoding->setId(QString::number(static_cast<int>(study.table->format.encoding)));
    for (const std::string& remark : study.table->remarks) remarks << QString::fromStdString(remark);
  }
  m_remarks->setText(remarks.isEmpty() ? QString() : tr("Look at it: %1.").arg(remarks.join(QStringLiteral("; "))));
  m_remarks->setVisible(!remarks.isEmpty());
}

void CsvDialog::refreshProblems() {
  const CsvReadings& all = m_reader->study().all;
  m_unread->clear();
  for (const CsvProblem& problem : all.problems)
    m_unread->addItem(tr("Line %1: %2").arg(problem.line).arg(QString::fromStdString(problem.message)));
  if (all.problemCount > all.problems.size()) m_unread->addItem(tr("and %1 more").arg(all.problemCount - all.problems.size()));
  m_unreadTitle->setText(all.problemCount == 0 ? tr("Everything could be read")
                                               : tr("Could not be read, left out: %1").arg(all.problemCount));
  m_unread->setVisible(all.problemCount > 0);
}

void CsvDialog::refreshSummary() {
  const CsvStudy& study = m_reader->study();
  QStringList sentences;
  for (const ReadingSummary& summary : study.summaries) sentences << words::summary(summary);
  if (!study.summaries.empty() && m_means->isChecked())
    sentences << (m_means->isEnabled()
                      ? tr("Of each kind one reading is entered, the mean.")
                      : tr("A trial holds no more than %1 of them: of each kind one reading is entered, the mean.").arg(mostReadings));
  for (const SeriesPeak& peak : study.peaks) sentences << words::peak(peak);
  if (!study.peaks.empty()) sentences << tr("A trial holds single readings, no logs: the highest value is entered.");
  if (study.table && !study.hasReadings()) sentences << tr("Nothing yet. Say above the columns what they hold.");
  m_summary->setText(sentences.join(QLatin1Char('\n')));
  m_enter->setEnabled(study.hasReadings());
}

std::vector<Reading> CsvDialog::readings() const { return readingsFrom(m_reader->study(), m_means->isChecked()); }

bool CsvDialog::keepsFile() const { return m_keep->isChecked(); }

}  // namespace bw
