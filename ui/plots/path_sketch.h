// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>
#include <functional>
#include <memory>

namespace bw {

/// The scan frame small and true: its path lit and dark, turnarounds, travel; magnified, the spot against line spacing and pulse step.
class PathSketch : public QWidget {
  Q_OBJECT

 public:
  explicit PathSketch(QWidget* parent = nullptr);

  void setProject(const Project& project);  // for the direction of travel
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Settings* settings() const;  // of the first step of the assessed plan
  void describe();
  QStringList captions() const;
  void paintFrame(QPainter& painter, const QRectF& box) const;
  void paintTurns(QPainter& painter, const QRectF& extent, const std::function<QPointF(const PathPoint&)>& at) const;
  void paintSpots(QPainter& painter, const QRectF& box) const;

  Project m_project;
  std::shared_ptr<const Assessment> m_assessment;
  bool m_stale = false;
};

}  // namespace bw
