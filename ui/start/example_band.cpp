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

namespace bw {
namespace {

QString places(int count) {
  const QStringList words = {ExampleBand::tr("one place"), ExampleBand::tr("two places"), ExampleBand::tr("three places"),
                             ExampleBand::tr("four places")};
  return count <= words.size() ? words[count - 1] : ExampleBand::tr("%1 places").arg(count);
}

QString unknownChecks(int count) {
  return count == 1 ? ExampleBand::tr("one is not known") : ExampleBand::tr("%1 are not known").arg(count);
}

}  // namespace

int firstRemedy(const Assessment& assessment, const std::vector<Remedy>& remedies) {
  for (const VerdictRow& row : assessment.verdict) {
    if (row.status != Status::Fails) continue;
    const auto found = std::ranges::find(remedies, row.check, &Remedy::check);
    if (found != remedies.end()) return static_cast<int>(found - remedies.begin());
  }
  return -1;
}

ExampleBand::ExampleBand(QWidget* parent) : QWidget(parent), m_text(new ElidedLabel), m_mend(new QPushButton(tr("Mend it with me"))) {
  setObjectName(QStringLiteral("exampleBand"));
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::AlternateBase);
  m_text->setObjectName(QStringLiteral("bandText"));
  m_mend->setObjectName(QStringLiteral("mend"));
  m_mend->setProperty("primary", true);
  auto* start = new QPushButton(tr("Start my part: 3 questions"));
  start->setObjectName(QStringLiteral("startMyPart"));
  auto* open = new QPushButton(tr("Open…"));
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
  for (QPushButton* button : {m_mend, start, open}) row->addWidget(button);
  row->addWidget(close);
  connect(m_mend, &QPushButton::clicked, this, &ExampleBand::mendChosen);
  connect(start, &QPushButton::clicked, this, &ExampleBand::startChosen);
  connect(open, &QPushButton::clicked, this, &ExampleBand::openChosen);
  connect(close, &QToolButton::clicked, this, &ExampleBand::dismissed);
  refresh();
}

void ExampleBand::setAssessment(const std::shared_ptr<const Assessment>& assessment) {
  m_assessed = assessment != nullptr;
  const auto count = [&](Status status) {
    return assessment ? static_cast<int>(std::ranges::count(assessment->verdict, status, &VerdictRow::status)) : 0;
  };
  m_failing = count(Status::Fails);
  m_unknown = count(Status::NotKnown);
  m_stopped = assessment && !openStops(assessment->precautions).empty();
  m_remediesKnown = false;
  m_next.clear();
  refresh();
}

void ExampleBand::setNext(const QString& remedy) {
  m_remediesKnown = true;
  m_next = remedy;
  refresh();
}

void ExampleBand::setDone(const QString& remedy) {
  m_done = remedy;
  refresh();
}

void ExampleBand::refresh() {
  QString text;
  if (!m_done.isEmpty()) text = tr("Done: %1. ").arg(m_done);
  if (!m_assessed) {
    text += tr("Invented example.");
  } else if (m_stopped) {
    text += tr("Invented example: nothing is mended before what stops the work is settled.");
  } else if (m_failing == 0 && m_unknown > 0) {
    text += m_done.isEmpty() ? tr("Invented example: no check fails, but %1.").arg(unknownChecks(m_unknown))
                             : tr("No check fails any more, but %1.").arg(unknownChecks(m_unknown));
  } else if (m_failing == 0) {
    text += m_done.isEmpty() ? tr("Invented example: this plan fails nowhere.") : tr("The plan fails nowhere any more.");
  } else if (m_done.isEmpty()) {
    text += tr("Invented example: this plan fails in %1.").arg(places(m_failing));
  } else {
    text += m_remediesKnown && m_next.isEmpty() ? tr("It still fails in %1; no single setting mends that.").arg(places(m_failing))
                                              : tr("It still fails in %1.").arg(places(m_failing));
  }
  if (!m_stopped && m_failing > 0 && !m_next.isEmpty()) text += tr(" Next: %1.").arg(m_next);
  m_text->setText(text);
  m_mend->setText(m_done.isEmpty() ? tr("Mend it with me") : tr("Mend the next"));
  m_mend->setEnabled(m_failing > 0 && m_remediesKnown && !m_next.isEmpty());
  m_mend->setVisible(!m_stopped && (m_failing > 0 || !m_assessed));
}

}  // namespace bw
