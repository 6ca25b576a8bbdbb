// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/trial_form.h"

#include "core/library/proof.h"
#include "ui/library/recipe_words.h"
#include "ui/plan/form.h"
#include "ui/readings/reading_list.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QDateEdit>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

QWidget* inPairs(const std::vector<QWidget*>& widgets, int columns) {
  auto* box = new QWidget;
  auto* grid = new QGridLayout(box);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(space::large);
  grid->setVerticalSpacing(space::small);
  for (std::size_t i = 0; i < widgets.size(); ++i) {
    const int at = static_cast<int>(i);
    grid->addWidget(widgets[i], at / columns, at % columns);
  }
  return box;
}

QString trialWords(const Trial& trial) {
  QStringList seen;
  for (const Seen one : trial.seen) seen << words::seen(one);
  QString text =
      TrialChoice::tr("%1, %2, %3: %4")
          .arg(trial.date.empty() ? TrialChoice::tr("not dated") : words::date(trial.date),
               trial.where.empty() ? TrialChoice::tr("place not noted") : QString::fromStdString(trial.where),
               words::outcome(outcomeOf(trial)), seen.isEmpty() ? TrialChoice::tr("nothing noted") : seen.join(QStringLiteral(", ")));
  if (trial.initials.empty()) text += TrialChoice::tr(" (not signed)");
  return text;
}

}  // namespace

TrialForm::TrialForm(QWidget* parent)
    : QWidget(parent),
      m_date(new QDateEdit(QDate::currentDate())),
      m_where(new QLineEdit),
      m_note(new QLineEdit),
      m_readings(new ReadingList),
      m_files(new QuietLabel) {
  auto* form = new Form;
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
  m_date->setObjectName(QStringLiteral("trialDate"));
  m_date->setAccessibleName(tr("Date of the trial"));
  m_date->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
  m_date->setMaximumDate(QDate::currentDate());
  m_where->setObjectName(QStringLiteral("trialWhere"));
  m_where->setAccessibleName(tr("Where the patch lies"));
  m_where->setPlaceholderText(tr("behind the door hinge"));
  m_note->setAccessibleName(tr("Note on the trial"));
  form->addRow(tr("Date"), m_date);
  form->addRow(tr("Where"), m_where);
  std::vector<QWidget*> boxes;
  for (const Seen one : {Seen::Cleared, Seen::Patchy, Seen::Not, Seen::Residue, Seen::Tint, Seen::Stripes}) {
    auto* box = new QCheckBox(words::seen(one));
    box->setObjectName(QStringLiteral("seen%1").arg(static_cast<int>(one)));
    connect(box, &QCheckBox::toggled, this, &TrialForm::changed);
    m_seen.emplace_back(one, box);
    boxes.push_back(box);
  }
  form->addRow(tr("Seen"), inPairs(boxes, 3));
  auto* measured = new QWidget;
  auto* below = new QVBoxLayout(measured);
  below->setContentsMargins(0, 0, 0, 0);
  below->setSpacing(space::small);
  below->addWidget(m_readings);
  below->addWidget(m_files);
  form->addRow(tr("Readings"), measured);
  connect(m_readings, &ReadingList::edited, this, &TrialForm::changed);
  connect(m_readings, &ReadingList::fileWanted, this, &TrialForm::fileWanted);
  m_files->setObjectName(QStringLiteral("trialFiles"));
  m_files->setWordWrap(true);
  m_files->hide();
  form->addRow(tr("Note"), m_note);
}

bool TrialForm::isFilled() const {
  return std::ranges::any_of(m_seen, [](const auto& seen) { return seen.second->isChecked(); }) || !m_readings->readings().empty();
}

void TrialForm::take(const std::vector<Reading>& readings, const QString& fileName, const std::optional<KeptFile>& file) {
  m_readings->add(readings);
  if (file) m_kept.push_back(*file);
  m_told << (file ? tr("%1: readings taken; a copy is kept with the proof.") : tr("%1: readings taken.")).arg(fileName);
  m_files->setText(m_told.join(QLatin1Char('\n')));
  m_files->show();
}

Trial TrialForm::trial(const Settings& settings, const std::string& initials) const {
  Trial trial;
  trial.date = m_date->date().toString(Qt::ISODate).toStdString();
  trial.where = m_where->text().trimmed().toStdString();
  trial.settings = settings;
  trial.note = m_note->text().trimmed().toStdString();
  trial.initials = initials;
  for (const auto& [seen, box] : m_seen) {
    if (box->isChecked()) trial.seen.push_back(seen);
  }
  trial.readings = m_readings->readings();
  return trial;
}

TrialChoice::TrialChoice(const RecipeVersion& version, QWidget* parent) : QWidget(parent), m_version(version), m_form(new TrialForm) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  const std::vector<Trial> known = version.proof ? version.proof->trials : std::vector<Trial>();
  if (!known.empty()) column->addWidget(new SectionHeader(tr("Trials so far")));
  for (const Trial& trial : known) {
    auto* line = new QLabel(trialWords(trial));
    line->setObjectName(QStringLiteral("knownTrial"));
    line->setWordWrap(true);
    line->setTextFormat(Qt::PlainText);
    column->addWidget(line);
  }
  column->addWidget(
      new SectionHeader(known.empty() ? tr("The trial, made with these settings") : tr("Another trial, made with these settings")));
  column->addWidget(m_form);
  connect(m_form, &TrialForm::changed, this, &TrialChoice::changed);
  connect(m_form, &TrialForm::fileWanted, this, &TrialChoice::fileWanted);
}

std::vector<Trial> TrialChoice::trials(const std::string& initials) const {
  std::vector<Trial> all = m_version.proof ? m_version.proof->trials : std::vector<Trial>();
  if (m_form->isFilled()) all.push_back(m_form->trial(stepsOf(m_version.plan).front().settings, initials));
  return all;
}

bool TrialChoice::proves() const {
  const std::string someone = "?", today = QDate::currentDate().toString(Qt::ISODate).toStdString();
  return isProven(withTrials(m_version, {trials(someone), today, someone, {}}));
}

QString TrialChoice::outcome() const {
  if (proves()) return tr("Cleared with these settings: the recipe is marked as proven.");
  if (!m_form->isFilled()) return {};
  return tr("This trial: %1. It is kept; the recipe is a draft until a trial with its settings clears.")
      .arg(words::outcome(outcomeOf(trials({}).back())));
}

QString TrialChoice::missing() const {
  return m_form->isFilled() || proves() ? QString() : tr("Say what was seen on the patch, or what was measured.");
}

}  // namespace bw
