// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/time_stepper.h"

#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QSignalBlocker>
#include <QSlider>
#include <QStyle>
#include <QToolButton>

namespace bw {

namespace {

constexpr int wholeJob_ms = 10000;
constexpr int marksHeight = 16;  // under the slider

}  // namespace

TimeStepper::TimeStepper(QWidget* parent)
    : QWidget(parent),
      m_stepper(new Stepper({"partMoment", "playJob", tr("Moment of the job shown"),
                             tr("Step through the job and see the part warm and cool; arrow keys do it too."), tr("Run through the job"),
                             tr("Runs through the whole job in about ten seconds")})),
      m_highest(new QToolButton) {
  m_stepper->setWholeTime(wholeJob_ms);
  m_stepper->label()->setMinimumWidth(QFontMetrics(m_stepper->label()->font()).horizontalAdvance(tr("00 min, pause after pass 00")));
  m_highest->setObjectName(QStringLiteral("partHighest"));
  m_highest->setText(tr("Highest"));
  m_highest->setCheckable(true);
  m_highest->setChecked(true);
  m_highest->setToolTip(tr("The highest that each place of the part reaches during the whole job, whenever that is."));
  m_highest->setAccessibleDescription(m_highest->toolTip());
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, marksHeight);
  row->setSpacing(space::medium);
  row->addWidget(m_stepper, 1);
  row->addWidget(m_highest);
  connect(m_stepper, &Stepper::numberChanged, this, [this] {
    setHighest(false);
    emit changed();
  });
  connect(m_stepper->playButton(), &QToolButton::toggled, this, [this](bool on) {
    if (!on || !showsHighest()) return;
    setHighest(false);
    emit changed();
  });
  connect(m_highest, &QToolButton::toggled, this, [this](bool on) {
    if (on) m_stepper->playButton()->setChecked(false);
    emit changed();
  });
}

void TimeStepper::setMoments(int number, std::vector<int> passAt) {
  m_passAt = std::move(passAt);
  m_stepper->setMost(std::max(0, number - 1));
  m_highest->setEnabled(number > 0);
  update();
}

bool TimeStepper::showsHighest() const { return m_highest->isChecked(); }

void TimeStepper::setHighest(bool on) {
  const QSignalBlocker quiet(m_highest);
  m_highest->setChecked(on);
}

/// From the highest the first step goes to the moment that the slider stands at.
void TimeStepper::stepBy(int moments) {
  QSlider* slider = m_stepper->slider();
  const int before = slider->value();
  if (!showsHighest()) slider->setValue(before + moments);
  if (slider->value() != before || !showsHighest()) return;
  setHighest(false);
  emit changed();
}

void TimeStepper::togglePlaying() {
  if (m_stepper->playButton()->isEnabled()) m_stepper->playButton()->toggle();
}

/// A tick and a number under the slider where each pass begins; where they crowd, the later numbers are left out.
void TimeStepper::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const QSlider* slider = m_stepper->slider();
  if (slider->maximum() == 0 || m_passAt.empty()) return;
  QFont small = font();
  small.setPixelSize(space::leastFont);
  painter.setFont(small);
  const Tones tones = tonesOf(palette());
  const int handle = slider->style()->pixelMetric(QStyle::PM_SliderLength, nullptr, slider), room = slider->width() - handle;
  const int left = slider->mapTo(this, QPoint(handle / 2, 0)).x(), top = height() - marksHeight;
  int free = 0;
  for (std::size_t pass = 0; pass < m_passAt.size(); ++pass) {
    const int x = left + QStyle::sliderPositionFromValue(0, slider->maximum(), m_passAt[pass], room);
    painter.setPen(QPen(tones.quiet, 1));
    painter.drawLine(x, top - 3, x, top + 2);
    const QString text = pass == 0 ? tr("pass 1") : QString::number(pass + 1);
    const int width = painter.fontMetrics().horizontalAdvance(text);
    const int begin = pass == 0 ? x - 3 : x - width / 2;
    if (begin < free || begin + width > this->width()) continue;
    painter.drawText(begin, top + 2, width + 2, marksHeight - 2, Qt::AlignLeft | Qt::AlignVCenter, text);
    free = begin + width + 6;
  }
}

}  // namespace bw
