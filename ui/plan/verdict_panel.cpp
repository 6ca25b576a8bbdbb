// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_panel.h"

#include "ui/plan/fact_list.h"
#include "ui/plan/find_out_next.h"
#include "ui/plan/verdict_row.h"
#include "ui/plan/working.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QLabel>
#include <QPainter>
#include <QRegularExpression>
#include <QResizeEvent>
#include <QScrollArea>
#include <QScrollBar>
#include <QSet>
#include <QSignalBlocker>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

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

QString sentencesOf(const std::vector<Hazard>& hazards) {
  QStringList sentences;
  for (const Hazard& hazard : hazards) sentences << QString::fromStdString(hazard.text);
  return sentences.join(QLatin1Char(' '));
}

/// Fire, which is always said in full, and the others, the worst first.
std::array<std::vector<Hazard>, 2> fireAndOthers(const Assessment* assessment) {
  std::array<std::vector<Hazard>, 2> parts;
  for (const Hazard& hazard : assessment == nullptr ? std::vector<Hazard>() : assessment->air.hazards)
    parts[hazard.harm == Harm::Fire ? 0 : 1].push_back(hazard);
  return parts;
}

/// What stops the work before all that fails.
int rankOf(const VerdictRow& row) {
  constexpr std::array order{Status::Fails, Status::Near, Status::NotKnown, Status::Meets};
  if (row.check == "safety" && row.status == Status::Fails) return -1;
  return static_cast<int>(std::ranges::find(order, row.status) - order.begin());
}

/// What was said already is not said again further down; the hazards are among the cautions.
class Said {
 public:
  explicit Said(const Assessment* assessment) {
    for (const Hazard& hazard : assessment == nullptr ? std::vector<Hazard>() : assessment->air.hazards)
      newIn(QString::fromStdString(hazard.text));
  }

  QString newIn(const QString& text) {
    static const QRegularExpression end(QStringLiteral("(?<=\\.)\\s+(?=[A-Z\"])"));
    QStringList kept;
    for (const QString& sentence : text.trimmed().split(end, Qt::SkipEmptyParts)) {
      const QString words = sentence.endsWith(QLatin1Char('.')) ? sentence.chopped(1) : sentence;
      if (m_said.contains(words)) continue;
      m_said.insert(words);
      kept << sentence;
    }
    return kept.join(QLatin1Char(' '));
  }

 private:
  QSet<QString> m_said;
};

}  // namespace

VerdictPanel::VerdictPanel(QWidget* parent)
    : QWidget(parent),
      m_scroll(new QScrollArea),
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
  m_rowLayout->addWidget(m_next);
  list->addStretch(1);
  m_scroll->setObjectName(QStringLiteral("verdictScroll"));
  m_scroll->setWidgetResizable(true);
  m_scroll->setFrameShape(QFrame::NoFrame);
  m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  m_scroll->setWidget(m_list);
  m_scroll->viewport()->setBackgroundRole(QPalette::Base);
  buildCautions();
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(1, 1, 1, 1);
  layout->setSpacing(0);
  layout->addWidget(m_scroll, 1);
  layout->addWidget(m_cautionBlock);
  showCautions();
}

void VerdictPanel::buildCautions() {
  m_cautions = text(QString(), QPalette::Text, space::leastFont);
  m_cautions->setObjectName(QStringLiteral("cautions"));
  m_cautions->setTextFormat(Qt::RichText);
  m_more->setObjectName(QStringLiteral("allCautions"));
  m_more->setCheckable(true);
  m_more->setAutoRaise(true);
  m_more->setFont(m_cautions->font());
  m_more->setFixedHeight(18);
  connect(m_more, &QToolButton::toggled, this, &VerdictPanel::showCautions);
  auto* layout = new QVBoxLayout(m_cautionBlock);
  layout->setContentsMargins(space::large, space::small, space::large, space::hair);
  layout->setSpacing(0);
  layout->addWidget(m_cautions);
  layout->addWidget(m_more, 0, Qt::AlignLeft);
}

void VerdictPanel::setProject(const Project& project) { m_project = project; }

void VerdictPanel::setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome) {
  m_assessment = std::move(assessment);
  setStale(false);
  m_early.clear();
  showRows(moreToCome);
  setRemedies({});
  scrollToPlan();
  m_next->setAssessment(m_assessment, moreToCome);
  showCautions();
}

void VerdictPanel::setRemedies(std::vector<Remedy> remedies) {
  m_remedies = std::move(remedies);
  placeRemedies();
}

void VerdictPanel::setStale(bool stale) {
  for (VerdictRowView* row : m_rows) row->setPending(stale && std::ranges::find(m_early, row->check()) == m_early.end());
  if (m_stale == stale) return;
  m_stale = stale;
  m_next->setGraphicsEffect(stale ? faint(m_next) : nullptr);
}

void VerdictPanel::setEarly(const Assessment& early) {
  for (const VerdictRow& row : early.verdict) {
    const auto view = std::ranges::find(m_rows, row.check, &VerdictRowView::check);
    if (view == m_rows.end()) continue;
    m_early.push_back(row.check);
    (*view)->setPending(false);
    (*view)->setRow(row, QString::fromStdString(row.message), findWorking(*m_assessment, row.check));  // its working follows
  }
}

void VerdictPanel::forget() {
  m_openByHand.clear();
  m_unfoldedByHand.clear();
  m_scrolled.clear();
  m_plan.clear();
  m_scroll->verticalScrollBar()->setValue(0);
}

void VerdictPanel::showRow(const std::string& check) {
  m_marked = check;
  for (VerdictRowView* row : m_rows) {
    const bool wanted = row->check() == check;
    row->setMarked(wanted);
    if (!wanted) continue;
    const QSignalBlocker quiet(row);  // opened for this once, not by hand
    row->setOpen(true);
    QTimer::singleShot(0, row, [this, row] { m_scroll->ensureWidgetVisible(row, 0, 0); });  // once it has its size
  }
}

/// Another plan is shown from where it was left, at first from its top; once its rows have their sizes.
void VerdictPanel::scrollToPlan() {
  const std::string plan = m_assessment == nullptr ? std::string() : m_assessment->plan;
  if (plan == m_plan) return;
  m_scrolled[m_plan] = m_scroll->verticalScrollBar()->value();
  m_plan = plan;
  const auto known = m_scrolled.find(plan);
  const int place = known == m_scrolled.end() ? 0 : known->second;
  QTimer::singleShot(0, m_scroll, [this, place] { m_scroll->verticalScrollBar()->setValue(place); });
}

/// The rows that are there are kept where the questions are the same, in the same order: focus, scroll position and what is folded stay.
void VerdictPanel::showRows(bool moreToCome) {
  m_empty->setVisible(m_assessment == nullptr);
  std::vector<VerdictRow> rows = m_assessment == nullptr ? std::vector<VerdictRow>() : m_assessment->verdict;
  std::ranges::stable_sort(rows, {}, rankOf);
  const auto same = [](const VerdictRowView* view, const VerdictRow& row) { return view->check() == row.check; };
  if (!std::ranges::equal(m_rows, rows, same)) rebuildRows(rows);
  Said said(m_assessment.get());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::string& check = rows[i].check;
    m_rows[i]->details()->set(marginsFor(check, *m_assessment, m_project, moreToCome),
                              rangesFor(check, *m_assessment, m_project, moreToCome), factsFor(rows[i], *m_assessment, m_project),
                              moreToCome && !m_assessment->ranges);
    m_rows[i]->setMarked(check == m_marked);
    m_rows[i]->setRow(rows[i], said.newIn(QString::fromStdString(rows[i].message)), findWorking(*m_assessment, check));
  }
  openRows();
}

/// Opened by the result, not by hand.
void VerdictPanel::openRows() {
  const bool roomy = height() >= roomyFrom;
  for (VerdictRowView* view : m_rows) {
    const auto row = std::ranges::find(m_assessment->verdict, view->check(), &VerdictRow::check);
    const QSignalBlocker quiet(view);
    const auto open = m_openByHand.find(view->check()), unfolded = m_unfoldedByHand.find(view->check());
    view->setOpen(view->check() == m_marked || (open == m_openByHand.end() ? startsOpen(*row) : open->second));
    view->setUnfolded(unfolded == m_unfoldedByHand.end() ? roomy && view == m_rows.front() : unfolded->second);
  }
}

/// Where there is little room, only the most urgent row. The cautions below say what there is to say of air and eyes.
bool VerdictPanel::startsOpen(const VerdictRow& row) const {
  if (row.status == Status::Meets || (row.check == "safety" && row.status != Status::Fails)) return false;
  return height() >= roomyFrom || row.check == m_rows.front()->check();
}

void VerdictPanel::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if ((event->oldSize().height() >= roomyFrom) != (height() >= roomyFrom)) openRows();
}

void VerdictPanel::rebuildRows(const std::vector<VerdictRow>& rows) {
  std::string focused;
  for (VerdictRowView* row : m_rows) {
    if (row->head()->hasFocus()) focused = row->check();
    delete row;
  }
  m_rows.clear();
  for (const VerdictRow& row : rows) {
    auto* view = new VerdictRowView(row.check);
    connect(view, &VerdictRowView::toggled, this, [this, check = row.check](bool open) { m_openByHand[check] = open; });
    connect(view, &VerdictRowView::unfolded, this, [this, check = row.check](bool open) { m_unfoldedByHand[check] = open; });
    m_rowLayout->insertWidget(m_rows.empty() ? 0 : m_rowLayout->count(), view);  // what to find out next follows the first
    m_rows.push_back(view);
    if (row.check == focused) view->head()->setFocus();
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
  const auto others = static_cast<int>(fireAndOthers(m_assessment.get())[1].size());
  m_more->setText(m_more->isChecked() ? tr("Fewer cautions") : others == 2 ? tr("1 more caution") : tr("%1 more cautions").arg(others - 1));
  m_more->setVisible(others > 1);
}

/// Fire in full; of the others the first, whole, unless all are wanted.
QString VerdictPanel::cautions() const {
  auto [fire, others] = fireAndOthers(m_assessment.get());
  if (!m_more->isChecked() && others.size() > 1) others.resize(1);
  QString eyes = tr("eyewear for all in the room");
  if (m_assessment != nullptr) {
    const EyesResult& risk = m_assessment->eyes;
    if (risk.opticalDensity) eyes += tr(", density %1 or more").arg(format::count(*risk.opticalDensity));
    if (risk.hazardDistance_m) eyes += tr("; hazard within %1").arg(format::length(*risk.hazardDistance_m));
  }
  return tr("<b>Fire</b> %1<br><b>Eyes</b> %2.<br><b>Lungs</b> extract at the source. %3 "
            "Local rules and the laser safety officer decide.")
      .arg(fire.empty() ? tr("look behind the metal, keep watch after.") : sentencesOf(fire).toHtmlEscaped(), eyes,
           sentencesOf(others).toHtmlEscaped());
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
