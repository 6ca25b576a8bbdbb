// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"
#include "ui/plots/picked_place.h"
#include "ui/plots/plot_export.h"
#include "ui/style/theme.h"

#include <QWidget>
#include <functional>
#include <memory>
#include <optional>

class QCustomPlot;
class QHBoxLayout;
class QLabel;
class QMenu;
class QStackedLayout;
class QToolButton;

namespace bw {

class ElidedLabel;

/// What all plots share: a heading in plain words, one line that states the result (or, under the pointer, the value there), zoom
/// that survives a new result, the palette, dimming, export. The four plots fill in the rest.
class PlotView : public QWidget {
  Q_OBJECT

 public:
  PlotView(QString title, QString shortTitle, QWidget* parent);
  ~PlotView() override;

  void setProject(const Project& project);
  /// `moreToCome`: the same assessment in depth is on its way.
  void setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome = false);
  void setGhost(std::shared_ptr<const Assessment> ghost);
  void setPlace(std::optional<PickedPlace> place);
  void setStale(bool stale);
  /// A newer plan is being assessed: what was told early is no longer of the newest.
  void setOutdated() { m_ofNewest = false; }
  void setCompact(bool compact);  // the small version: no axis labels, no key; a click brings it forward
  /// On a page that scrolls: the wheel turns the page.
  void leaveWheelToPage();
  bool isCompact() const { return m_compact; }

  void fit();
  bool isZoomed() const { return m_zoomed; }
  QCustomPlot* canvas() const { return m_plot; }
  QString title() const { return m_title; }
  QString statement() const;    // the line under the heading
  QString emptyText() const;    // what to do next, where there is nothing to draw; else empty

  virtual QString readoutAt(double x, double y) const = 0;
  virtual QString csv() const = 0;
  /// By suffix: png, svg, pdf, csv; `table`: another than csv().
  bool exportTo(const QString& file, QString* problem = nullptr, const std::function<QString()>& table = {});

 signals:
  void activated();  // the small version was clicked
  void placePicked(double across_m, double along_m);
  void placeDropped();

 protected:
  virtual bool hasResult() const { return m_assessment != nullptr; }  // plots of something else than an assessment say so
  virtual void arrived() {}                        // a new assessment is there, nothing is drawn yet
  virtual bool isBehind() const { return false; }  // what is drawn is of an earlier assessment
  virtual void refresh() = 0;                     // new data into the plottables
  virtual void restyle(const Tones& tones) = 0;   // pens and brushes of the plottables
  virtual void fitAxes() = 0;
  virtual QString summary() const = 0;
  virtual QString missing() const = 0;            // reason and next step where this assessment has nothing for this plot
  virtual void clickedAt(const QPointF&) {}
  virtual void keepShape() {}  // after a resize while zoomed
  virtual void extendMenu(QMenu&) {}

  bool moreToCome() const { return m_moreToCome; }
  QString spreadWords() const;  // what stands where a spread is not there yet
  const Project& project() const { return m_project; }
  const Assessment* now() const { return m_assessment.get(); }
  const Assessment* ghost() const { return m_ghost.get(); }
  const std::optional<PickedPlace>& place() const { return m_place; }
  const Tones& tones() const { return m_tones; }
  const Settings* settings() const;  // of the first step of the assessed plan
  void addToHeading(QWidget* control);  // at the right of the heading; the small version does without
  void addBelow(QWidget* control);      // under the plot; the small version does without
  void ready();  // at the end of the last constructor, when restyle can be called
  void replotSoon();
  void refreshAll();
  void askAndExport(const QString& suffix, const std::function<QString()>& table = {});

  void changeEvent(QEvent* event) override;
  void showEvent(QShowEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void buildCanvas();
  void buildSave();
  void fillSaveMenu(QMenu& menu);
  void openMenu(const QPoint& place);
  void styleCanvas(const QPalette& palette);
  void showStatement();
  void moveCursor(const QPointF& position);
  void leaveCursor();
  void refitAfterResize();
  void zoomBy(double factor);
  void panBy(double across, double up);
  bool exportPicture(const QString& file);

  QString m_title, m_shortTitle;
  ElidedLabel* m_heading;
  QHBoxLayout* m_head;
  QToolButton* m_save;
  ElidedLabel* m_line;
  QStackedLayout* m_stack;
  QCustomPlot* m_plot;
  QLabel* m_empty;
  QWidget* m_below = nullptr;
  Tones m_tones;
  Project m_project;
  std::shared_ptr<const Assessment> m_assessment, m_ghost;
  std::optional<PickedPlace> m_place;
  std::optional<QPointF> m_cursor, m_pressed;
  bool m_stale = false, m_ofNewest = false, m_moreToCome = false, m_compact = false, m_zoomed = false, m_fitting = false,
       m_wheelZooms = true;
};

}  // namespace bw
