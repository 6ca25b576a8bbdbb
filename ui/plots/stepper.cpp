// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/stepper.h"

#include "ui/fields/icon.h"
#include "ui/style/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>
#include <QSlider>
#include <QStyle>
#include <QToolButton>

#include <algorithm>

namespace bw {

namespace {

constexpr int shortest_ms = 40;  // between pictures: an eye sees no more, and the screen has other work

}  // namespace

Stepper::Stepper(const Words& words, QWidget* parent)
    : QWidget(parent), m_play(new QToolButton), m_slider(new QSlider(Qt::Horizontal)), m_label(new QLabel), m_tip(words.buttonTip) {
  m_play->setObjectName(QLatin1String(words.button));
  m_play->setIcon(lineIcon(QStringLiteral("play")));
  m_play->setCheckable(true);
  m_play->setAutoRaise(true);
  m_play->setAccessibleName(words.buttonName);
  m_slider->setObjectName(QLatin1String(words.slider));
  m_slider->setAccessibleName(words.sliderName);
  m_slider->setToolTip(words.sliderTip);
  m_slider->setPageStep(1);
  m_slider->setMinimumWidth(60);
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_label->setFont(small);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  row->addWidget(m_play);
  row->addWidget(m_slider, 1);
  row->addWidget(m_label);
  connect(&m_steps, &QTimer::timeout, this, &Stepper::step);
  connect(m_play, &QToolButton::toggled, this, &Stepper::play);
  connect(m_slider, &QSlider::valueChanged, this, [this](int number) {
    m_wanted = number;
    emit numberChanged(number);
  });
  setMost(0);
}

int Stepper::number() const { return m_slider->value(); }
int Stepper::most() const { return m_slider->maximum(); }

void Stepper::setMost(int number) {
  const QSignalBlocker quiet(m_slider);
  m_slider->setRange(0, number);
  m_slider->setValue(m_wanted);
  m_slider->setEnabled(number > 0);
  setPace();
  allowPlaying();
}

void Stepper::setNumber(int number) {
  m_wanted = number;
  const QSignalBlocker quiet(m_slider);
  m_slider->setValue(number);
}

void Stepper::setWords(const QString& words) { m_label->setText(words); }

void Stepper::setStepTime(int time_ms) {
  m_stepTime_ms = time_ms;
  m_wholeTime_ms = 0;
  setPace();
}

void Stepper::setWholeTime(int time_ms) {
  m_wholeTime_ms = time_ms;
  setPace();
}

void Stepper::setPace() {
  const int each_ms = m_wholeTime_ms > 0 ? m_wholeTime_ms / std::max(1, most()) : m_stepTime_ms;
  m_stride = m_wholeTime_ms > 0 && each_ms < shortest_ms ? (shortest_ms * most() + m_wholeTime_ms - 1) / m_wholeTime_ms : 1;
  m_steps.setInterval(m_stride > 1 ? m_wholeTime_ms * m_stride / std::max(1, most()) : each_ms);
}

/// Not where the desktop asks for no animation: its style then gives animations no time.
void Stepper::allowPlaying() {
  const bool still = style()->styleHint(QStyle::SH_Widget_Animation_Duration, nullptr, this) == 0;
  m_play->setEnabled(!still && most() > 0);
  m_play->setToolTip(still ? tr("%1; off because this desktop asks for no animation.").arg(m_tip) : m_tip + QLatin1Char('.'));
  if (!m_play->isEnabled()) m_play->setChecked(false);
}

void Stepper::play(bool on) {
  if (!on) return m_steps.stop();
  if (number() >= most()) m_slider->setValue(0);
  m_steps.start();
}

void Stepper::step() {
  m_slider->setValue(number() + m_stride);
  if (number() >= most()) m_play->setChecked(false);
}

void Stepper::hideEvent(QHideEvent* event) {
  m_play->setChecked(false);
  QWidget::hideEvent(event);
}

void Stepper::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::StyleChange) allowPlaying();
}

}  // namespace bw
