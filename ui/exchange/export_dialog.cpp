// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/export_dialog.h"

#include "ui/exchange/exchange_words.h"
#include "ui/fields/problem_label.h"
#include "ui/library/page_parts.h"
#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QButtonGroup>
#include <QCheckBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QScrollArea>
#include <QSettings>
#include <QTextDocument>
#include <QVBoxLayout>

namespace bw {
namespace {

const QString fromKey = QStringLiteral("exchange/from");
constexpr int dialogWidth = 560;
constexpr int noteHeight = 64;
constexpr int noticesHeight = 160;
constexpr int longestFrom = 200;
constexpr int longestNote = 5000;
constexpr int longestName = 48;  // letters of a name in a caption

QString shortened(const QString& name) {
  QString text = name.size() > longestName ? name.left(longestName - 1) + QStringLiteral("…") : name;
  return text.replace(QLatin1Char('&'), QStringLiteral("&&"));  // or a letter would be underlined
}

QString captionOf(const GivenAway& given) {
  switch (given.what) {
    case GivenAway::What::Recipe:
      return ExportDialog::tr("This recipe: “%1”").arg(shortened(given.name));
    case GivenAway::What::Found:
      return ExportDialog::tr("The recipes that are found now");
    case GivenAway::What::Entry:
      return (given.kind == EntryKind::Machine   ? ExportDialog::tr("This machine: “%1”")
              : given.kind == EntryKind::Coating ? ExportDialog::tr("This coating: “%1”")
                                                 : ExportDialog::tr("This metal: “%1”"))
          .arg(shortened(given.name));
    case GivenAway::What::Everything:
      break;
  }
  return ExportDialog::tr("Everything: all recipes, own materials and own machines");
}

const char* nameOf(GivenAway::What what) {
  switch (what) {
    case GivenAway::What::Recipe:
      return "chooseRecipe";
    case GivenAway::What::Found:
      return "chooseFound";
    case GivenAway::What::Entry:
      return "chooseEntry";
    case GivenAway::What::Everything:
      break;
  }
  return "chooseEverything";
}

}  // namespace

ExportDialog::ExportDialog(const std::vector<GivenAway>& offered, QWidget* parent)
    : QDialog(parent),
      m_offered(offered),
      m_asked(new QWidget),
      m_done(new QWidget),
      m_doneColumn(new QVBoxLayout(m_done)),
      m_what(new QButtonGroup(this)),
      m_much(new QuietLabel),
      m_attachments(new QCheckBox),
      m_attachmentsProblem(new QuietLabel),
      m_from(new QLineEdit(QSettings().value(fromKey).toString())),
      m_note(new QPlainTextEdit),
      m_problem(new ProblemLabel),
      m_missing(new QuietLabel),
      m_cancel(nullptr),
      m_doIt(nullptr) {
  setObjectName(QStringLiteral("exportDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Give to another library"));
  setMinimumWidth(dialogWidth);
  auto* asked = new QVBoxLayout(m_asked);
  asked->setContentsMargins(0, 0, 0, 0);
  asked->setSpacing(space::medium);
  asked->addWidget(
      parts::text(tr("Recipes go into one file with all their versions and proofs, and with the materials and machines they were "
                     "made with. Whoever gets it brings it into their own library; here nothing changes.")));
  addChoices(*asked);
  auto* form = new Form;
  addWords(*form);
  asked->addWidget(form);
  m_doneColumn->setContentsMargins(0, 0, 0, 0);
  m_done->hide();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  column->setSpacing(space::large);
  column->addWidget(m_asked);
  column->addWidget(m_done, 1);
  column->addWidget(m_problem);
  column->addWidget(m_missing);
  addButtons(*column);
  check();
}

void ExportDialog::addChoices(QVBoxLayout& column) {
  for (std::size_t i = 0; i < m_offered.size(); ++i) {
    auto* button = new QRadioButton(captionOf(m_offered[i]));
    button->setObjectName(QLatin1String(nameOf(m_offered[i].what)));
    if (!m_offered[i].name.isEmpty()) button->setToolTip(Qt::convertFromPlainText(m_offered[i].name));
    m_what->addButton(button, static_cast<int>(i));
    column.addWidget(button);
    if (i == 0) button->setChecked(true);
  }
  m_much->setObjectName(QStringLiteral("exportExtent"));
  m_attachments->setObjectName(QStringLiteral("withAttachments"));
  m_attachments->setChecked(true);
  m_attachmentsProblem->setObjectName(QStringLiteral("attachmentsProblem"));
  m_attachmentsProblem->setWordWrap(true);
  m_attachmentsProblem->hide();
  for (QWidget* widget : std::initializer_list<QWidget*>{m_much, m_attachments, m_attachmentsProblem}) column.addWidget(widget);
  connect(m_what, &QButtonGroup::idToggled, this, [this](int, bool on) {
    if (!on) return;
    m_extent.reset();
    check();
    emit extentWanted();
  });
}

void ExportDialog::addWords(Form& form) {
  m_from->setObjectName(QStringLiteral("bundleFrom"));
  m_from->setAccessibleName(tr("From whom it is"));
  m_from->setPlaceholderText(tr("your shop, as they will read it"));
  m_from->setMaxLength(longestFrom);
  m_note->setObjectName(QStringLiteral("bundleNote"));
  m_note->setAccessibleName(tr("A word to whoever gets it"));
  m_note->setPlaceholderText(tr("a word to whoever gets it"));
  m_note->setTabChangesFocus(true);
  m_note->setFixedHeight(noteHeight);
  form.addRow(tr("From"), m_from);
  form.addRow(tr("Note"), m_note);
}

void ExportDialog::addButtons(QVBoxLayout& column) {
  m_problem->setObjectName(QStringLiteral("exportProblem"));
  m_missing->setObjectName(QStringLiteral("missing"));
  m_missing->setWordWrap(true);
  auto* buttons = new QDialogButtonBox;
  m_cancel = buttons->addButton(tr("Cancel"), QDialogButtonBox::RejectRole);
  m_cancel->setObjectName(QStringLiteral("closeExport"));
  m_cancel->setAutoDefault(false);
  m_doIt = buttons->addButton(tr("Write the file…"), QDialogButtonBox::ApplyRole);
  m_doIt->setObjectName(QStringLiteral("doIt"));
  m_doIt->setProperty("primary", true);
  column.addWidget(buttons);
  m_doIt->setDefault(true);  // once it is in the dialog, or Enter would press another
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(m_doIt, &QPushButton::clicked, this, [this] {
    m_problem->say({});
    QSettings().setValue(fromKey, m_from->text().trimmed());
    emit writeWanted();
  });
}

const GivenAway& ExportDialog::chosen() const { return m_offered[static_cast<std::size_t>(std::max(0, m_what->checkedId()))]; }
bool ExportDialog::attachments() const { return m_attachments->isEnabledTo(m_asked) && m_attachments->isChecked(); }

BundleWords ExportDialog::words() const {
  return {m_from->text().simplified().toStdString(), m_note->toPlainText().trimmed().left(longestNote).toStdString(), {}};
}

void ExportDialog::showExtent(const ExportExtent& extent) {
  m_extent = extent;
  check();
}

void ExportDialog::showProblem(const QString& sentence) { m_problem->say(sentence); }

void ExportDialog::showWritten(const WrittenBundle& written) {
  m_asked->hide();
  m_doneColumn->addWidget(parts::text(words::written(written)));
  if (!written.notices.empty()) {
    QStringList notices;
    for (const std::string& notice : written.notices) notices << words::oneLine(notice);
    auto* area = new QScrollArea;
    area->setFrameShape(QFrame::NoFrame);
    area->setWidgetResizable(true);
    area->setWidget(parts::note(notices, Status::Near, QStringLiteral("exportNotices")));
    area->setMinimumHeight(std::min(area->widget()->sizeHint().height() + space::medium, noticesHeight));
    m_doneColumn->addWidget(area, 1);
  }
  m_doneColumn->itemAt(0)->widget()->setObjectName(QStringLiteral("exportDone"));
  m_done->show();
  m_doIt->hide();
  m_cancel->setText(tr("Close"));
  m_cancel->setDefault(true);
  m_cancel->setFocus();
  check();
  adjustSize();
}

void ExportDialog::setWorking(bool working) {
  m_working = working;
  m_asked->setEnabled(!working);
  check();
}

QString ExportDialog::missing() const {
  if (!m_done->isHidden()) return {};
  if (m_working) return tr("Writing…");
  if (!m_extent) return tr("Looking how much it is…");
  if (!m_extent->problem.empty()) return QString::fromStdString(m_extent->problem);
  if (m_extent->recipes + m_extent->materials + m_extent->machines == 0) return tr("There is nothing of that to give.");
  return {};
}

void ExportDialog::check() {
  const std::size_t count = m_extent ? m_extent->attachments : 0;
  const QString problem = m_extent ? QString::fromStdString(m_extent->attachmentsProblem) : QString();
  const QString much = m_extent ? words::extent(*m_extent) : QString();
  m_much->setText(much.isEmpty() ? QStringLiteral(" ") : tr("That is %1.").arg(much));
  m_attachments->setEnabled(count > 0 && problem.isEmpty());
  m_attachments->setText(!m_extent ? tr("Photos and documents go along")
                         : count == 0
                             ? tr("Photos and documents go along (there are none)")
                             : tr("Photos and documents go along (%1, %2)").arg(count).arg(words::size(m_extent->attachments_bytes)));
  m_attachmentsProblem->setText(problem);
  m_attachmentsProblem->setVisible(!problem.isEmpty());
  const QString sentence = missing();
  m_missing->setText(sentence);
  m_missing->setVisible(!sentence.isEmpty());
  m_doIt->setEnabled(m_done->isHidden() && sentence.isEmpty());
}

}  // namespace bw
