// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QWidget>

class QHBoxLayout;
class QLabel;
class QSlider;
class QToolButton;

namespace bw {

/// Steps through numbered pictures: a slider, the picture in words, and a button that runs through them. The one that was asked for is
/// kept even while fewer can be shown, so that a result which comes in two parts does not move it. Runs only while it is seen.
class Stepper : public QWidget {
  Q_OBJECT

 public:
  /// Object names and words of the parts.
  struct Words {
    const char* slider;
    const char* button;
    QString sliderName, sliderTip;
    QString buttonName, buttonTip;  // the tip without its full stop
  };

  explicit Stepper(const Words& words, QWidget* parent = nullptr);

  void setMost(int number);    // 0: nothing to step through
  void setNumber(int number);  // says nothing
  int number() const;          // as shown
  int most() const;
  void setWords(const QString& words);  // beside the slider
  void setStepTime(int time_ms);        // of each picture
  void setWholeTime(int time_ms);       // of all of them together; skips some where the screen could not follow
  bool isPlaying() const { return m_steps.isActive(); }
  QSlider* slider() const { return m_slider; }
  QToolButton* playButton() const { return m_play; }
  QLabel* label() const { return m_label; }

 signals:
  void numberChanged(int number);  // by hand or by running

 protected:
  void hideEvent(QHideEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void play(bool on);
  void step();
  void allowPlaying();
  void setPace();

  QToolButton* m_play;
  QSlider* m_slider;
  QLabel* m_label;
  QTimer m_steps;
  QString m_tip;
  int m_wanted = 0, m_stride = 1;
  int m_stepTime_ms = 700, m_wholeTime_ms = 0;  // whole 0: each step takes the step time
};

}  // namespace bw
