// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/fields/initials.h"
#include "ui/plan/form.h"

#include <QDialog>

#include <functional>
#include <map>

class QDialogButtonBox;
class QVBoxLayout;

namespace bw {

/// Asks for a few words. The button that does it is on only when all that must be said is said; what is missing is told.
class WordsDialog : public QDialog {
  Q_OBJECT
 public:
  struct Field {
    QString name;  // for text() and, as object name, for tests
    QString caption;
    QString proposal;
    bool needed = false;
    bool lines = false;  // several lines of text
    int longest = 0;     // characters; 0: any
  };

  WordsDialog(const QString& title, const QString& explanation, const QString& doIt, const std::vector<Field>& fields, QWidget* parent);

  QString text(const QString& field) const;
  /// More between the explanation and the fields.
  void insert(QWidget* widget);
  /// Another condition; a sentence says what is missing, an empty one: nothing.
  void demand(std::function<QString()> missing);
  void check();
  /// Other words on the button that does it, and what comes of it, said while nothing is missing.
  void sayDoIt(const QString& words, const QString& outcome);

 protected:
  void showEvent(QShowEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void keepApart();
  void addField(const Field& field);
  void focusFirst();
  QString missing() const;

  QVBoxLayout* m_column;
  Form* m_form;
  QLabel* m_missing;
  QDialogButtonBox* m_buttons;
  std::vector<Field> m_fields;
  std::map<QString, std::function<QString()>> m_texts;
  std::function<QString()> m_demand;
  QString m_outcome;
};

WordsDialog::Field initialsField();

}  // namespace bw
