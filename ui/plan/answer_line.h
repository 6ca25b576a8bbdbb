// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"

#include <QAbstractButton>
#include <memory>
#include <vector>

class QHBoxLayout;

namespace bw {

/// A number large, its meaning small under it. With a working, or where it leads somewhere, it can be pressed.
class KeyNumber : public QAbstractButton {
  Q_OBJECT

 public:
  explicit KeyNumber(const QString& key, QWidget* parent = nullptr);
  void set(const QString& value, const QString& meaning, const Working* working);
  /// A press goes there instead of to a working.
  void lead(const QString& tip);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return sizeHint(); }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  bool opens() const { return m_working || m_leads; }

  QString m_meaning;
  bool m_leads = false;
  std::optional<Working> m_working;
};

/// The one sentence over every workspace, with the shape of the worst state and the key numbers, each of which opens its working.
class AnswerLine : public QWidget {
  Q_OBJECT

 public:
  explicit AnswerLine(QWidget* parent = nullptr);

  void setProject(const Project& project);  // for the currency
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
  void setProblem(const QString& sentence);  // instead of an answer, where the project cannot be assessed; empty clears

  QString sentence() const;
  const std::vector<KeyNumber*>& numbers() const { return m_numbers; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 signals:
  void beforeBeamWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void rebuild();
  /// One number of the line: its range where that is known.
  struct Entry {
    const char* key;
    QString value;
    QString meaning;
  };
  std::vector<Entry> entries() const;
  QString predicted(const LimitResult& limit) const;
  KeyNumber* numberOf(const char* key);
  void arrange();
  QRect sentenceBox() const;

  Project m_project;
  std::shared_ptr<const Assessment> m_assessment;
  std::vector<KeyNumber*> m_numbers;  // most important first
  QString m_problem;
  bool m_stale = false;
};

}  // namespace bw
