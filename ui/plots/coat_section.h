// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"
#include "ui/plots/picked_place.h"

#include <QWidget>
#include <memory>
#include <optional>

class QLabel;
class QSlider;

namespace bw {

class CoatCanvas;
class PassStepper;

/// The coat on its metal, cut through: layers in the paints' own colours, thickness to scale, boundaries that can be dragged,
/// and a stepper that wears the coat away pass by pass: at the place picked on the map, else over all places by their dose.
class CoatSection : public QWidget {
  Q_OBJECT

 public:
  explicit CoatSection(QWidget* parent = nullptr);

  void setCoat(const Project& project);
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);

  CoatCanvas* canvas() const { return m_canvas; }
  PassStepper* passes() const { return m_passes; }
  QSlider* stepper() const;
  QString words() const;  // what is left
  void setPlace(std::optional<PickedPlace> place);
  void setPass(int pass);  // says nothing

 signals:
  void thicknessDragged(int layer, double thickness_m);  // while it is dragged or stepped
  void thicknessDragFinished();                          // the moment to close one undo step
  void layerSelected(int layer);
  void passChanged(int pass);

 private:
  void showPass();
  std::optional<double> depth() const;  // of the place, else the mean

  CoatCanvas* m_canvas;
  PassStepper* m_passes;
  QLabel* m_words;
  std::optional<PickedPlace> m_place;
  std::shared_ptr<const Assessment> m_assessment;
};

}  // namespace bw
