// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_panel.h"

#include "ui/plan/fact_list.h"
#include "ui/plan/find_out_next.h"
#include "ui/plan/verdict_row.h"
#include "ui/plan/working.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QGraphicsOpacityEffect>
#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {

namespace {

constexpr std::size_t mostRemedies = 3;

QLabel* text(const QString& content, QPalette::ColorRole role, int size_px, bool heavy = false) {
  auto* label = new QLabel(content);
  label->setWordWrap(true);
  label->setForegroundRole(role);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  QFont font = label->font();
  font.setPixelSize(size_px);
  font.setBold(heavy);
  label->setFont(font);
  return label;
}

constexpr qsizetype briefly = 80;  // letters of the hazards that the short form shows

QString shortened(const QString& text) {
  const qsizetype space = text.lastIndexOf(QLatin1Char(' '), briefly);
  return text.left(space > 0 ? space : briefly) + QStringLiteral(" …");
}

QString hazardText(const Assessment* assessment) {
  QStringList sentences;
  for (const std::string& hazard : assessment == nullptr ? std::vector<std::string>() : assessment->air.hazards) {
    const QString sentence = QString::fromStdString(hazard);
    sentences << (sentence.endsWith(QLatin1Char('.')) ? sentence : sentence + QLatin1Char('.'));
  }
  return sentences.join(QLatin1Char(' '));
}

}  // namespace

VerdictPanel::VerdictPanel(QWidget* parent)
    : QWidget(parent),
      m_list(new QWidget),
      m_rowLayout(new QVBoxLayout),
      m_next(new FindOutNextBlock),
      m_empty(nullptr),
      m_cautionBlock(new QWidget),
      m_cautions(nullptr),
      m_more(new QToolButton) {
  setMinimumWidth(260);
  setAccessibleName(tr("Verdict"));
  m_empty =
      text(tr("Nothing to judge yet. Say what the part is, what is on it and which machine."), QPalette::PlaceholderText, space::bodyFont);
  m_empty->setMargin(space::large);
  m_rowLayout->setSpacing(0);
  auto* list = new QVBoxLayout(m_list);
  list->setContentsMargins(0, 0, 0, 0);
  list->setSpacing(0);
  list->addWidget(m_empty);
  list->addLayout(m_rowLayout);
  list->addWidget(m_next);
  list->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setObjectName(QStringLiteral("verdictScroll"));
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setWidget(m_list);
  scroll->viewport()->setBackgroundRole(QPalette::Base);
  buildCautions();
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(1, 1, 1, 1);
  layout->setSpacing(0);
  layout->addWidget(scroll, 1);
  layout->addWidget(m_cautionBlock);
  showCautions();
}

void VerdictPanel::buildCautions() {
  m_cautions = text(QString(), QPalette::Text, space::leastFont);
  m_cautions->setObjectName(QStringLiteral("cautions"));
  m_cautions->setTextFormat(Qt::RichText);
  m_more->setText(tr("All cautions"));
  m_more->setObjectName(QStringLiteral("allCautions"));
  m_more->setCheckable(true);
  m_more->setAutoRaise(true);
  m_more->setFont(m_cautions->font());
  connect(m_more, &QToolButton::toggled, this, &VerdictPanel::showCautions);
  auto* layout = new QVBoxLayout(m_cautionBlock);
  layout->setContentsMargins(space::large, space::medium, space::large, space::medium);
  layout->setSpacing(space::hair);
  layout->addWidget(m_cautions);
  layout->addWidget(m_more, 0, Qt::AlignLeft);
}

void VerdictPanel::setProject(const Project& project) { m_project = project; }

void VerdictPanel::setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome) {
  m_assessment = std::move(assessment);
  setStale(false);
  showRows(moreToCome);
  setRemedies({});
  m_next->setAssessment(m_assessment, moreToCome);
  showCautions();
}

void VerdictPanel::setRemedies(std::vector<Remedy> remedies) {
  m_remedies = std::move(remedies);
  placeRemedies();
}

void VerdictPanel::setStale(bool stale) {
  if (m_stale == stale) return;
  m_stale = stale;
  auto* effect = stale ? new QGraphicsOpacityEffect(m_list) : nullptr;
  if (effect != nullptr) effect->setOpacity(0.5);
  m_list->setGraphicsEffect(effect);
}

/// The rows that are there are kept where the questions are the same: focus, scroll position and what is folded stay.
void VerdictPanel::showRows(bool moreToCome) {
  m_empty->setVisible(m_assessment == nullptr);
  const std::vector<VerdictRow> rows = m_assessment == nullptr ? std::vector<VerdictRow>() : m_assessment->verdict;
  const auto same = [](const VerdictRowView* view, const VerdictRow& row) { return view->check() == row.check; };
  if (!std::ranges::equal(m_rows, rows, same)) rebuildRows();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    m_rows[i]->setRow(rows[i], findWorking(*m_assessment, rows[i].check));
    const std::string& check = rows[i].check;
    m_rows[i]->details()->set(marginsFor(check, *m_assessment, m_project, moreToCome),
                              rangesFor(check, *m_assessment, m_project, moreToCome), factsFor(rows[i], *m_assessment, m_project),
                              moreToCome && !m_assessment->ranges);
    const QSignalBlocker quiet(m_rows[i]);  // opened by the result, not by hand
    const auto byHand = m_openByHand.find(rows[i].check);
    m_rows[i]->setOpen(byHand == m_openByHand.end() ? rows[i].status != Status::Meets : byHand->second);
  }
}

void VerdictPanel::rebuildRows() {
  for (VerdictRowView* row : m_rows) delete row;
  m_rows.clear();
  if (m_assessment == nullptr) return;
  for (const VerdictRow& row : m_assessment->verdict) {
    auto* view = new VerdictRowView(row.check);
    connect(view, &VerdictRowView::toggled, this, [this, check = row.check](bool open) { m_openByHand[check] = open; });
    m_rowLayout->addWidget(view);
    m_rows.push_back(view);
  }
}

void VerdictPanel::placeRemedies() {
  for (VerdictRowView* row : m_rows) {
    std::vector<RemedyButton*> buttons;
    for (std::size_t i = 0; i < m_remedies.size() && buttons.size() < mostRemedies; ++i) {
      if (m_remedies[i].check != row->check()) continue;
      auto* button = new RemedyButton(QString::fromStdString(m_remedies[i].label), QString::fromStdString(m_remedies[i].effect));
      const int index = static_cast<int>(i);
      button->setObjectName(QStringLiteral("remedy%1").arg(index));
      connect(button, &RemedyButton::hovered, this, [this, index](bool inside) { emit remedyHovered(inside ? index : -1); });
      connect(button, &RemedyButton::clicked, this, [this, index] { emit remedyChosen(index); }, Qt::QueuedConnection);
      buttons.push_back(button);
    }
    row->setRemedies(buttons);
  }
}

void VerdictPanel::showCautions() {
  m_cautions->setText(cautions());
  m_more->setVisible(hazardText(m_assessment.get()).size() > briefly || m_more->isChecked());
}

QString VerdictPanel::cautions() const {
  QString eyes = tr("eyewear for all in the room"), lungs = hazardText(m_assessment.get());
  if (m_assessment != nullptr) {
    const EyesResult& risk = m_assessment->eyes;
    if (risk.opticalDensity) eyes += tr(", density %1 or more").arg(format::count(*risk.opticalDensity));
    if (risk.hazardDistance_m) eyes += tr("; hazard within %1").arg(format::length(*risk.hazardDistance_m));
  }
  if (!m_more->isChecked() && lungs.size() > briefly) lungs = shortened(lungs);
  return tr("<b>Eyes</b> %1.<br><b>Lungs</b> extract at the source. %2<br><b>Fire</b> look behind the metal, keep watch after.<br>"
            "Local rules and the laser safety officer decide.")
      .arg(eyes, lungs.toHtmlEscaped());
}

void VerdictPanel::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Tones tones = tonesOf(palette());
  painter.fillRect(rect(), tones.sheet);
  painter.fillRect(m_cautionBlock->geometry(), palette().color(QPalette::AlternateBase));
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(m_cautionBlock->geometry().topLeft(), m_cautionBlock->geometry().topRight());
  painter.drawRect(rect().adjusted(0, 0, -1, -1));
}

}  // namespace bw
