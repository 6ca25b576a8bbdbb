// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QWidget>

class QLabel;
class QSlider;
class QToolButton;

namespace bw {

/// Steps through the passes: a slider, its pass in words, and a button that runs through them. The pass that was asked for is kept even
/// while fewer can be shown, so that a result which comes in two parts does not move it.
class PassStepper : public QWidget {
  Q_OBJECT

 public:
  explicit PassStepper(QWidget* parent = nullptr);

  void setMost(int passes);  // 0: nothing to step through
  void setPass(int pass);    // says nothing
  int pass() const;          // as shown
  int most() const;
  void setWords(const QString& words);  // beside the slider
  bool isPlaying() const { return m_steps.isActive(); }
  QSlider* slider() const { return m_slider; }
  QToolButton* playButton() const { return m_play; }

 signals:
  void passChanged(int pass);  // by hand or by running

 protected:
  void hideEvent(QHideEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void play(bool on);
  void step();
  void allowPlaying();

  QToolButton* m_play;
  QSlider* m_slider;
  QLabel* m_words;
  QTimer m_steps;
  int m_wanted = 0;
};

}  // namespace bw
