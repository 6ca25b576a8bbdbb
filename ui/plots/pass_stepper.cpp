// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/pass_stepper.h"

#include "ui/fields/icon.h"
#include "ui/style/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>
#include <QSlider>
#include <QStyle>
#include <QToolButton>

namespace bw {

namespace {

constexpr int stepTime_ms = 700;

}  // namespace

PassStepper::PassStepper(QWidget* parent)
    : QWidget(parent), m_play(new QToolButton), m_slider(new QSlider(Qt::Horizontal)), m_words(new QLabel) {
  m_play->setObjectName(QStringLiteral("playPasses"));
  m_play->setIcon(lineIcon(QStringLiteral("play")));
  m_play->setCheckable(true);
  m_play->setAutoRaise(true);
  m_play->setAccessibleName(tr("Run through the passes"));
  m_slider->setObjectName(QStringLiteral("passStepper"));
  m_slider->setAccessibleName(tr("Passes shown"));
  m_slider->setToolTip(tr("Step through the passes and see how the coat wears away; arrow keys do it too."));
  m_slider->setPageStep(1);
  m_slider->setMinimumWidth(60);
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_words->setFont(small);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  row->addWidget(m_play);
  row->addWidget(m_slider, 1);
  row->addWidget(m_words);
  m_steps.setInterval(stepTime_ms);
  connect(&m_steps, &QTimer::timeout, this, &PassStepper::step);
  connect(m_play, &QToolButton::toggled, this, &PassStepper::play);
  connect(m_slider, &QSlider::valueChanged, this, [this](int pass) {
    m_wanted = pass;
    emit passChanged(pass);
  });
  setMost(0);
}

int PassStepper::pass() const { return m_slider->value(); }
int PassStepper::most() const { return m_slider->maximum(); }

void PassStepper::setMost(int passes) {
  const QSignalBlocker quiet(m_slider);
  m_slider->setRange(0, passes);
  m_slider->setValue(m_wanted);
  m_slider->setEnabled(passes > 0);
  allowPlaying();
}

void PassStepper::setPass(int pass) {
  m_wanted = pass;
  const QSignalBlocker quiet(m_slider);
  m_slider->setValue(pass);
}

void PassStepper::setWords(const QString& words) { m_words->setText(words); }

/// Not where the desktop asks for no animation: its style then gives animations no time.
void PassStepper::allowPlaying() {
  const bool still = style()->styleHint(QStyle::SH_Widget_Animation_Duration, nullptr, this) == 0;
  m_play->setEnabled(!still && most() > 0);
  m_play->setToolTip(still ? tr("Runs through the passes; off because this desktop asks for no animation.")
                           : tr("Runs through the passes, one after the other."));
  if (!m_play->isEnabled()) m_play->setChecked(false);
}

void PassStepper::play(bool on) {
  if (!on) return m_steps.stop();
  if (pass() >= most()) m_slider->setValue(0);
  m_steps.start();
}

void PassStepper::step() {
  m_slider->setValue(pass() + 1);
  if (pass() >= most()) m_play->setChecked(false);
}

void PassStepper::hideEvent(QHideEvent* event) {
  m_play->setChecked(false);
  QWidget::hideEvent(event);
}

void PassStepper::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::StyleChange) allowPlaying();
}

}  // namespace bw
