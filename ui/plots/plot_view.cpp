// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/plot_view.h"

#include "ui/fields/icon.h"
#include "ui/plots/painting.h"
#include "ui/style/elided_label.h"

#include <QContextMenuEvent>
#include <QFileDialog>
#include <QLabel>
#include <QMenu>
#include <QMessageBox>
#include <QPainter>
#include <QStackedLayout>
#include <QToolButton>
#include <QVBoxLayout>

namespace bw {

namespace {

constexpr double clickReach_px = 4;

}  // namespace

PlotView::PlotView(QString title, QString shortTitle, QWidget* parent)
    : QWidget(parent),
      m_title(std::move(title)),
      m_shortTitle(std::move(shortTitle)),
      m_heading(new ElidedLabel(this)),
      m_head(new QHBoxLayout),
      m_save(new QToolButton(this)),
      m_line(new ElidedLabel(this)),
      m_stack(new QStackedLayout),
      m_plot(new QCustomPlot(this)),
      m_empty(new QLabel(this)),
      m_tones(tonesOf(palette())) {
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(m_title);
  QFont bold = font();
  bold.setBold(true);
  m_heading->setFont(bold);
  m_heading->setText(m_title, m_shortTitle);
  m_line->setFont(smallFont(font()));
  m_line->setForegroundRole(QPalette::PlaceholderText);
  m_empty->setWordWrap(true);
  m_empty->setAlignment(Qt::AlignCenter);
  m_empty->setMargin(space::large);
  m_empty->setForegroundRole(QPalette::PlaceholderText);
  m_stack->addWidget(m_plot);
  m_stack->addWidget(m_empty);
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(space::medium, space::medium - 1, space::medium, space::small);
  layout->setSpacing(0);
  m_head->setSpacing(space::small);
  m_head->addWidget(m_heading, 1);
  buildSave();
  layout->addLayout(m_head);
  layout->addWidget(m_line);
  layout->addLayout(m_stack, 1);
  buildCanvas();
}

/// In the small version too.
void PlotView::buildSave() {
  m_save->setObjectName(QStringLiteral("savePlot"));
  m_save->setIcon(lineIcon(QStringLiteral("save")));
  m_save->setIconSize({16, 16});
  m_save->setAutoRaise(true);
  m_save->setPopupMode(QToolButton::InstantPopup);
  m_save->setToolTip(tr("Save this plot as a picture or a table"));
  m_save->setAccessibleName(tr("Save the plot: %1").arg(m_title));
  m_save->setCursor(Qt::ArrowCursor);
  auto* menu = new QMenu(m_save);
  connect(menu, &QMenu::aboutToShow, this, [this, menu] {
    menu->clear();
    fillSaveMenu(*menu);
  });
  m_save->setMenu(menu);
  m_head->addWidget(m_save, 0, Qt::AlignTop);
}

void PlotView::leaveWheelToPage() { m_wheelZooms = false; }

PlotView::~PlotView() { m_plot->removeEventFilter(this); }

void PlotView::buildCanvas() {
  m_plot->setMinimumSize(60, 40);
  m_plot->setFocusPolicy(Qt::NoFocus);
  m_plot->setAttribute(Qt::WA_OpaquePaintEvent);
  m_plot->setMouseTracking(true);
  m_plot->setNoAntialiasingOnDrag(true);
  m_plot->setInteractions(QCP::iRangeDrag | QCP::iRangeZoom);
  m_plot->installEventFilter(this);
  m_empty->installEventFilter(this);
  m_plot->addLayer(QStringLiteral("veil"));
  m_plot->addLayer(QStringLiteral("cursor"));
  m_plot->layer(QStringLiteral("cursor"))->setMode(QCPLayer::lmBuffered);
  new Painting(m_plot, QStringLiteral("veil"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF&) {
    if (!m_stale && !isBehind()) return;
    QColor veil = m_tones.sheet;
    veil.setAlphaF(0.6F);
    painter.fillRect(m_plot->viewport(), veil);
  });
  new Painting(m_plot, QStringLiteral("cursor"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    if (!m_cursor) return;
    painter.setPen(QPen(m_tones.quiet, 1, Qt::DotLine));
    painter.drawLine(QPointF(m_cursor->x(), box.top()), QPointF(m_cursor->x(), box.bottom()));
    painter.drawLine(QPointF(box.left(), m_cursor->y()), QPointF(box.right(), m_cursor->y()));
  });
  const auto zoomed = [this](const QCPRange&) { m_zoomed = m_zoomed || !m_fitting; };
  connect(m_plot->xAxis, qOverload<const QCPRange&>(&QCPAxis::rangeChanged), this, zoomed);
  connect(m_plot->yAxis, qOverload<const QCPRange&>(&QCPAxis::rangeChanged), this, zoomed);
}

void PlotView::setProject(const Project& project) { m_project = project; }

void PlotView::setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome) {
  const bool cameEarly = m_ofNewest && !m_stale && m_assessment && m_assessment->doseOnly && assessment &&
                         assessment->map == m_assessment->map && assessment->sceneMap == m_assessment->sceneMap;
  m_assessment = std::move(assessment);
  m_moreToCome = moreToCome;
  m_stale = false;
  m_ofNewest = true;
  arrived();
  if (!cameEarly) return refreshAll();
  showStatement();  // all else is drawn
  setAccessibleDescription(statement());
}

void PlotView::setGhost(std::shared_ptr<const Assessment> ghost) {
  if (m_ghost == ghost) return;
  m_ghost = std::move(ghost);
  refreshAll();
}

void PlotView::setPlace(std::optional<PickedPlace> place) {
  m_place = place;
  refreshAll();
}

void PlotView::setStale(bool stale) {
  if (stale && m_ofNewest && m_assessment && m_assessment->doseOnly) return;
  if (m_stale == stale) return;
  m_stale = stale;
  replotSoon();
}

void PlotView::setCompact(bool compact) {
  m_compact = compact;
  m_heading->setText(compact ? m_shortTitle : m_title, m_shortTitle);
  for (int i = 1; i + 1 < m_head->count(); ++i) m_head->itemAt(i)->widget()->setVisible(!compact);  // between the words and saving
  if (m_below != nullptr) m_below->setVisible(!compact);
  m_plot->setInteractions(compact ? QCP::Interactions() : QCP::iRangeDrag | QCP::iRangeZoom);
  setCursor(compact ? Qt::PointingHandCursor : Qt::ArrowCursor);
  setToolTip(compact ? tr("Click to bring this plot forward") : QString());
  leaveCursor();
  styleCanvas(palette());
  refreshAll();
  fit();
}

void PlotView::refreshAll() {
  const bool empty = !emptyText().isEmpty();
  m_empty->setText(emptyText());
  m_stack->setCurrentWidget(empty ? static_cast<QWidget*>(m_empty) : m_plot);
  if (!empty) {
    refresh();
    if (!m_zoomed) fit();
  }
  showStatement();
  setAccessibleDescription(statement());
  replotSoon();
}

void PlotView::fit() {
  m_fitting = true;
  if (hasResult() && emptyText().isEmpty()) fitAxes();
  m_fitting = false;
  m_zoomed = false;
  replotSoon();
}

QString PlotView::statement() const { return !hasResult() || !missing().isEmpty() ? QString() : summary(); }

QString PlotView::emptyText() const {
  if (!hasResult()) return tr("Nothing computed yet. Say what the part is, what is on it and which machine: the plot follows at once.");
  return missing();
}

QString PlotView::spreadWords() const {
  return m_moreToCome ? tr("Single estimate, spread follows") : tr("Single estimate, spread not computed");
}

const Settings* PlotView::settings() const {
  if (m_assessment == nullptr) return nullptr;
  const Plan* plan = findPlan(m_project, m_assessment->plan);
  if (plan == nullptr) return nullptr;
  return plan->steps.empty() ? &plan->settings : &plan->steps.front().settings;
}

void PlotView::addToHeading(QWidget* control) { m_head->insertWidget(m_head->count() - 1, control, 0, Qt::AlignTop); }

void PlotView::addBelow(QWidget* control) {
  m_below = control;
  layout()->addWidget(control);
}

void PlotView::ready() {
  styleCanvas(palette());
  refreshAll();
}

/// What is put away is drawn when it is shown again.
void PlotView::replotSoon() {
  if (!isHidden()) m_plot->replot(QCustomPlot::rpQueuedReplot);
}

void PlotView::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  replotSoon();
}

void PlotView::showStatement() {
  m_line->setForegroundRole(QPalette::PlaceholderText);
  m_line->setText(statement());
}

void PlotView::styleCanvas(const QPalette& palette) {
  m_tones = tonesOf(palette);
  m_plot->setBackground(m_tones.sheet);
  m_plot->setFont(smallFont(font()));
  for (QCPAxis* axis : {m_plot->xAxis, m_plot->yAxis}) {
    axis->setBasePen(QPen(m_tones.line, 1));
    axis->setTickPen(QPen(m_tones.line, 1));
    axis->setSubTickPen(Qt::NoPen);
    axis->setTickLength(0, 4);
    axis->setTickLabelColor(m_tones.quiet);
    axis->setLabelColor(m_tones.quiet);
    axis->setTickLabelFont(smallFont(font()));
    axis->setLabelFont(smallFont(font()));
    axis->setLabelPadding(4);
    axis->grid()->setPen(QPen(blend(m_tones.sheet, m_tones.line, 0.55), 1));
    axis->grid()->setZeroLinePen(Qt::NoPen);
    axis->ticker()->setTickCount(m_compact ? 3 : 5);
  }
  restyle(m_tones);
}

void PlotView::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() != QEvent::PaletteChange && event->type() != QEvent::FontChange) return;
  styleCanvas(palette());
  refreshAll();
}

void PlotView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(hasFocus() ? m_tones.accent : m_tones.line, 1));
  painter.setBrush(m_tones.sheet);
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
}

bool PlotView::eventFilter(QObject* watched, QEvent* event) {
  auto* mouse = dynamic_cast<QMouseEvent*>(event);
  switch (event->type()) {
    case QEvent::MouseButtonPress:
      setFocus(Qt::MouseFocusReason);
      if (mouse->button() == Qt::LeftButton) m_pressed = mouse->position();
      break;
    case QEvent::MouseButtonRelease:
      if (m_pressed && (mouse->position() - *m_pressed).manhattanLength() < clickReach_px) {
        if (m_compact) emit activated();
        else if (watched == m_plot) clickedAt(mouse->position());
      }
      m_pressed.reset();
      break;
    case QEvent::MouseButtonDblClick:
      if (!m_compact) fit();
      break;
    case QEvent::MouseMove:
      if (!m_compact && watched == m_plot) moveCursor(mouse->position());
      break;
    case QEvent::Leave: leaveCursor(); break;
    case QEvent::ContextMenu:
      openMenu(static_cast<QContextMenuEvent*>(event)->globalPos());
      return true;
    case QEvent::Wheel:
      if (m_wheelZooms && !m_compact) break;
      event->ignore();  // the page scrolls
      return true;
    case QEvent::Resize:
      if (watched == m_plot) QMetaObject::invokeMethod(this, &PlotView::refitAfterResize, Qt::QueuedConnection);
      break;
    default: break;
  }
  return QWidget::eventFilter(watched, event);
}

void PlotView::refitAfterResize() {
  if (!m_zoomed) return fit();
  keepShape();
  replotSoon();
}

void PlotView::moveCursor(const QPointF& position) {
  if (!QRectF(m_plot->axisRect()->rect()).contains(position)) return leaveCursor();
  m_cursor = position;
  const QString text = readoutAt(m_plot->xAxis->pixelToCoord(position.x()), m_plot->yAxis->pixelToCoord(position.y()));
  m_line->setForegroundRole(QPalette::Text);
  m_line->setText(text);
  m_plot->layer(QStringLiteral("cursor"))->replot();
}

void PlotView::leaveCursor() {
  if (!m_cursor) return;
  m_cursor.reset();
  showStatement();
  m_plot->layer(QStringLiteral("cursor"))->replot();
}

void PlotView::zoomBy(double factor) {
  m_plot->axisRect()->rangeZoomAxis(Qt::Horizontal)->scaleRange(factor);
  m_plot->axisRect()->rangeZoomAxis(Qt::Vertical)->scaleRange(factor);
  replotSoon();
}

void PlotView::panBy(double across, double up) {
  constexpr double share = 0.1;
  m_plot->xAxis->moveRange(across * share * m_plot->xAxis->range().size());
  m_plot->yAxis->moveRange(up * share * m_plot->yAxis->range().size() * (m_plot->yAxis->rangeReversed() ? -1 : 1));
  replotSoon();
}

void PlotView::keyPressEvent(QKeyEvent* event) {
  if (m_compact) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space) return emit activated();
    return QWidget::keyPressEvent(event);
  }
  switch (event->key()) {
    case Qt::Key_Escape:
      return m_place ? emit placeDropped() : QWidget::keyPressEvent(event);
    case Qt::Key_0: return fit();
    case Qt::Key_Plus: return zoomBy(0.8);
    case Qt::Key_Minus: return zoomBy(1.25);
    case Qt::Key_Left: return panBy(-1, 0);
    case Qt::Key_Right: return panBy(1, 0);
    case Qt::Key_Up: return panBy(0, 1);
    case Qt::Key_Down: return panBy(0, -1);
    default: QWidget::keyPressEvent(event);
  }
}

void PlotView::contextMenuEvent(QContextMenuEvent* event) { openMenu(event->globalPos()); }

void PlotView::openMenu(const QPoint& place) {
  auto* menu = new QMenu(this);
  menu->setObjectName(QStringLiteral("plotMenu"));
  menu->setAttribute(Qt::WA_DeleteOnClose);
  menu->addAction(tr("Fit to the window\t0"), this, &PlotView::fit);
  if (m_place) menu->addAction(tr("Forget the picked place\tEsc"), this, &PlotView::placeDropped);
  extendMenu(*menu);
  menu->addSeparator();
  fillSaveMenu(*menu);
  menu->popup(place);
}

void PlotView::fillSaveMenu(QMenu& menu) {
  for (const char* suffix : {"png", "svg", "pdf", "csv"}) {
    const QString name = QString::fromLatin1(suffix);
    menu.addAction(tr("Save as %1…").arg(name.toUpper()), this, [this, name] { askAndExport(name); })->setEnabled(emptyText().isEmpty());
  }
}

void PlotView::askAndExport(const QString& suffix, const std::function<QString()>& table) {
  QString file = QFileDialog::getSaveFileName(this, tr("Save the plot"), m_shortTitle + QLatin1Char('.') + suffix,
                                              QStringLiteral("%1 (*.%2)").arg(suffix.toUpper(), suffix));
  if (file.isEmpty()) return;
  if (QFileInfo(file).suffix().compare(suffix, Qt::CaseInsensitive) != 0) file += QLatin1Char('.') + suffix;
  QString problem;
  if (!exportTo(file, &problem, table)) QMessageBox::warning(this, tr("Save the plot"), problem);
}

bool PlotView::exportTo(const QString& file, QString* problem, const std::function<QString()>& table) {
  const bool asTable = QFileInfo(file).suffix().compare(QLatin1String("csv"), Qt::CaseInsensitive) == 0;
  const bool done = emptyText().isEmpty() && (asTable ? writeText(file, table ? table() : csv()) : exportPicture(file));
  if (!done && problem != nullptr) *problem = tr("The plot was not saved: %1 cannot be written. Try another folder or name.").arg(file);
  return done;
}

/// Always on white, always with axes and key, never dimmed, whatever the screen shows.
bool PlotView::exportPicture(const QString& file) {
  const bool compact = m_compact, stale = m_stale;
  const QSize size = m_plot->size();
  const QCPRange across = m_plot->xAxis->range(), up = m_plot->yAxis->range();
  m_stale = false;
  leaveCursor();
  if (compact) {
    m_plot->resize(760, 460);
    setCompact(false);
  }
  styleCanvas(paletteOf(Theme::Light));
  refresh();
  const bool done = exportPlot(*m_plot, {m_title, summary()}, file);
  m_stale = stale;
  if (compact) {
    m_plot->resize(size);
    setCompact(true);
  } else {
    m_plot->setViewport(m_plot->rect());
  }
  styleCanvas(palette());
  refresh();
  m_fitting = true;
  m_plot->xAxis->setRange(across);
  m_plot->yAxis->setRange(up);
  m_fitting = false;
  replotSoon();
  return done;
}

}  // namespace bw
