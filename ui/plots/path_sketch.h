// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"

#include <QElapsedTimer>
#include <QPixmap>
#include <QTimer>
#include <QWidget>
#include <memory>

class QToolButton;

namespace bw {

/// Where the head is at a time of the frame, between the points of its drawing. Precondition: a path that is not empty.
PathPoint alongPath(const std::vector<PathPoint>& path, double time_s);

/// The scan frame small and true: its path lit and dark, turnarounds, travel; magnified, the spot against line spacing and pulse step.
/// On demand a dot runs slowly along the path.
class PathSketch : public QWidget {
  Q_OBJECT

 public:
  explicit PathSketch(QWidget* parent = nullptr);

  void setProject(const Project& project);  // for the direction of travel
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
  QSize sizeHint() const override;
  bool isPlaying() const { return m_frames.isActive(); }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  /// How the frame lies on the widget.
  struct View {
    QRectF extent;  // of the path, metres
    QPointF middle;
    double scale;
    QPointF at(const PathPoint& point) const;
  };

  const Settings* settings() const;  // of the first step of the assessed plan
  void describe();
  QStringList captions() const;
  bool hasPath() const { return m_assessment != nullptr && !m_assessment->path.empty(); }
  void allowPlaying();
  void play(bool on);
  QString paceCaption() const;
  void redraw();
  QString frameCaption() const;
  Pattern pattern() const;
  double lineSpacing_m() const;
  QRectF frameBox() const;
  View view() const;
  void paintPicture(QPainter& painter) const;
  void paintHead(QPainter& painter) const;
  void paintFrame(QPainter& painter, const QRectF& box) const;
  void paintTurns(QPainter& painter, const View& shown) const;
  void paintSpots(QPainter& painter, const QRectF& box) const;

  Project m_project;
  std::shared_ptr<const Assessment> m_assessment;
  bool m_stale = false;
  QPixmap m_picture;  // all but the moving dot
  QToolButton* m_play;
  QTimer m_frames;  // at rest unless playing
  QElapsedTimer m_clock;
};

}  // namespace bw
