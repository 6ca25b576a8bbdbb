// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGridLayout>
#include <QLabel>
#include <QWidget>

class QToolButton;

namespace bw {

class QuantityField;

/// A column of captions and a column of fields, with the same widths wherever it is used.
class Form : public QWidget {
  Q_OBJECT
 public:
  static constexpr int captionWidth = 96;

  explicit Form(QWidget* parent = nullptr);

  /// Widgets of one row, so that it can be hidden as one.
  struct Row {
    QLabel* caption = nullptr;
    QWidget* field = nullptr;
    void setVisible(bool visible) const;
    void name(const QString& text, const QString& tip) const;
  };
  Row addRow(const QString& caption, QWidget* field);
  Row addWide(QWidget* field);
  QLabel* addGroup(const QString& title);

 private:
  QGridLayout* m_grid;
};

/// Title of a section: the word, and at the right what belongs to it as a whole.
class SectionHeader : public QWidget {
  Q_OBJECT
 public:
  explicit SectionHeader(const QString& title, QWidget* right = nullptr, QWidget* parent = nullptr);
};

/// Text in the quieter ink of the theme.
class QuietLabel : public QLabel {
  Q_OBJECT
 public:
  explicit QuietLabel(const QString& text = {}, QWidget* parent = nullptr);
};

/// Two fields of one thing in one row: width × height.
QWidget* besideEachOther(QuantityField* first, QuantityField* second);

/// A button that folds something in and out; its text says what a click does.
QToolButton* makeFoldButton(const QString& objectName, const QString& text);

}  // namespace bw
