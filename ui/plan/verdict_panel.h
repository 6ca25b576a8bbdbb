// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <QWidget>
#include <map>
#include <memory>
#include <vector>

class QLabel;
class QScrollArea;
class QToolButton;
class QVBoxLayout;

namespace bw {

class FindOutNextBlock;
class VerdictRowView;

/// The verdict: one row for each question, the worst first and open, the others folded; what to find out next under the first; the
/// cautions, always. Each plan has its own place to scroll to.
class VerdictPanel : public QWidget {
  Q_OBJECT

 public:
  explicit VerdictPanel(QWidget* parent = nullptr);

  static constexpr int roomyFrom = 820;  // px of height; from here all that is not met is open, and the first one's details unfolded

  void setProject(const Project& project);
  /// Another project is open: what was scrolled and opened by hand belonged to the one before.
  void forget();
  /// Opens a row, marks it and scrolls to it; no other stays marked. Empty: none is marked.
  void showRow(const std::string& check);
  /// `moreToCome`: the same assessment in depth is on its way.
  void setAssessment(std::shared_ptr<const Assessment> assessment, bool moreToCome = false);
  void setEarly(const Assessment& early);          // of its rows the newest is known; the others are pending
  void setOutdated() { m_early.clear(); }          // a newer plan is being assessed
  void setRemedies(std::vector<Remedy> remedies);  // best first; at most three a row are shown
  void setStale(bool stale);

  const std::vector<VerdictRowView*>& rows() const { return m_rows; }
  FindOutNextBlock* findOutNext() const { return m_next; }
  QString cautions() const;  // as shown: in short, or all of them

 signals:
  void remedyHovered(int index);  // into the remedies given; -1 when the pointer or focus leaves
  void remedyChosen(int index);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void showRows(bool moreToCome);
  void rebuildRows(const std::vector<VerdictRow>& rows);
  void openRows();
  bool startsOpen(const VerdictRow& row) const;
  void scrollToPlan();
  void placeRemedies();
  void buildCautions();
  void showCautions();

  Project m_project;
  std::shared_ptr<const Assessment> m_assessment;
  std::vector<Remedy> m_remedies;
  std::vector<VerdictRowView*> m_rows;
  std::map<std::string, bool> m_openByHand, m_unfoldedByHand;  // what the person opened or closed stays so
  std::map<std::string, int> m_scrolled;                       // px, by plan
  std::string m_marked;                                        // the check that was gone to
  std::string m_plan;                                          // whose verdict is shown
  QScrollArea* m_scroll;
  QWidget* m_list;
  QVBoxLayout* m_rowLayout;
  FindOutNextBlock* m_next;
  QLabel* m_empty;
  QWidget* m_cautionBlock;
  QLabel* m_cautions;
  QToolButton* m_more;
  bool m_stale = false;
  std::vector<std::string> m_early;  // checks that are known of the newest plan already
};

}  // namespace bw
