// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/start/example_band.h"

#include "core/job/hazards.h"
#include "ui/fields/icon.h"
#include "ui/style/elided_label.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QToolButton>

#include <algorithm>
#include <iterator>

namespace bw {
namespace {

QString places(std::size_t count) {
  const QStringList words = {ExampleBand::tr("one place"), ExampleBand::tr("two places"), ExampleBand::tr("three places"),
                             ExampleBand::tr("four places")};
  const auto at = static_cast<qsizetype>(count);
  return at <= words.size() ? words[at - 1] : ExampleBand::tr("%1 places").arg(at);
}

QString questions(const std::vector<VerdictRow>& rows) {
  QStringList names;
  for (const VerdictRow& row : rows) names << QString::fromStdString(row.question);
  return names.join(QLatin1Char(' '));
}

}  // namespace

int firstRemedy(const Assessment& assessment, const std::vector<Remedy>& remedies) {
  const auto fails = [&](const Remedy& remedy) {
    return std::ranges::any_of(assessment.verdict,
                               [&](const VerdictRow& row) { return row.check == remedy.check && row.status == Status::Fails; });
  };
  const auto found = std::ranges::find_if(remedies, fails);
  return found == remedies.end() ? -1 : static_cast<int>(found - remedies.begin());
}

ExampleBand::ExampleBand(QWidget* parent)
    : QWidget(parent), m_text(new ElidedLabel), m_mend(new QPushButton), m_show(new QPushButton(tr("Show where"))) {
  setObjectName(QStringLiteral("exampleBand"));
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::AlternateBase);
  m_text->setObjectName(QStringLiteral("bandText"));
  m_mend->setObjectName(QStringLiteral("mend"));
  m_mend->setProperty("primary", true);
  m_show->setObjectName(QStringLiteral("showPlace"));
  m_show->setToolTip(tr("Opens the check that fails and its plot"));
  auto* start = m_elsewhere[0] = new QPushButton(tr("Start my part: 3 questions"));
  start->setObjectName(QStringLiteral("startMyPart"));
  auto* open = m_elsewhere[1] = new QPushButton(tr("Open…"));
  auto* close = new QToolButton;
  close->setObjectName(QStringLiteral("dismissBand"));
  close->setIcon(lineIcon(QStringLiteral("close")));
  close->setAutoRaise(true);
  close->setToolTip(tr("Hide this band"));
  close->setAccessibleName(close->toolTip());
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::large, 6, space::medium, 6);
  row->setSpacing(space::medium);
  row->addWidget(m_text, 1);
  for (QPushButton* button : {m_mend, m_show, start, open}) row->addWidget(button);
  row->addWidget(close);
  connect(m_mend, &QPushButton::clicked, this, &ExampleBand::mendChosen);
  connect(m_show, &QPushButton::clicked, this, [this] { emit placeChosen(place()); });
  connect(start, &QPushButton::clicked, this, &ExampleBand::startChosen);
  connect(open, &QPushButton::clicked, this, &ExampleBand::openChosen);
  connect(close, &QToolButton::clicked, this, &ExampleBand::dismissed);
  refresh();
}

void ExampleBand::setAssessment(const std::shared_ptr<const Assessment>& assessment) {
  m_assessment = assessment;
  m_failed = false;
  m_remediesKnown = false;
  m_next.clear();
  m_nextCheck.clear();
  refresh();
}

void ExampleBand::setExample(bool example) {
  m_example = example;
  for (QPushButton* button : m_elsewhere) button->setVisible(example);
  refresh();
}

bool ExampleBand::isFailing() const { return !rowsIn(Status::Fails).empty(); }

void ExampleBand::setFailed() {
  setAssessment(nullptr);
  m_failed = true;
  refresh();
}

void ExampleBand::setNext(const QString& remedy, const std::string& check) {
  m_remediesKnown = true;
  m_next = remedy;
  m_nextCheck = check;
  refresh();
}

void ExampleBand::setDone(const QString& remedy) {
  m_done = remedy;
  refresh();
}

std::vector<VerdictRow> ExampleBand::rowsIn(Status status) const {
  std::vector<VerdictRow> rows;
  if (m_assessment != nullptr)
    std::ranges::copy_if(m_assessment->verdict, std::back_inserter(rows), [status](const VerdictRow& row) { return row.status == status; });
  return rows;
}

std::string ExampleBand::place() const {
  const auto failing = rowsIn(Status::Fails);
  if (failing.empty()) return {};
  const bool known = std::ranges::find(failing, m_nextCheck, &VerdictRow::check) != failing.end();
  return known ? m_nextCheck : failing.front().check;
}

/// The change to come is named with the check it is for; where none is known, all that fail.
QString ExampleBand::failingWords() const {
  const auto failing = rowsIn(Status::Fails);
  const QString count = places(failing.size());
  if (!m_remediesKnown) return tr("It fails in %1: %2 Looking for a fix…").arg(count, questions(failing));
  if (m_next.isEmpty()) return tr("It fails in %1: %2 No change that was tried mends it.").arg(count, questions(failing));
  const std::string check = place();
  const auto row = std::ranges::find(failing, check, &VerdictRow::check);
  return tr("It fails in %1. Next, for “%2”: %3.").arg(count, QString::fromStdString(row->question), m_next);
}

bool ExampleBand::isStopped() const { return m_assessment != nullptr && !openStops(m_assessment->precautions).empty(); }

QString ExampleBand::stateWords() const {
  if (m_failed) return tr("This plan cannot be calculated.");
  if (m_assessment == nullptr) return tr("Calculating…");
  if (isStopped()) return tr("Nothing is fixed before what stops the work is settled.");
  if (isFailing()) return failingWords();
  const auto unknown = rowsIn(Status::NotKnown);
  if (unknown.empty()) return tr("The plan fails nowhere.");
  return tr("No check fails. Not known: %1").arg(questions(unknown));
}

QString ExampleBand::sentence() const {
  if (!m_done.isEmpty()) return tr("Done: %1. %2").arg(m_done, stateWords());
  return m_example ? tr("Invented example. %1").arg(stateWords()) : stateWords();
}

void ExampleBand::refresh() {
  const bool failing = isFailing() && !isStopped();
  m_text->setText(sentence());
  m_mend->setToolTip(m_next);
  m_mend->setText(m_done.isEmpty() ? tr("Fix it step by step") : tr("Fix next"));
  m_mend->setEnabled(failing && m_remediesKnown && !m_next.isEmpty());
  m_mend->setVisible(failing || m_assessment == nullptr);
  m_show->setVisible(failing);
}

}  // namespace bw
