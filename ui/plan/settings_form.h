// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/form.h"

class QCheckBox;

namespace bw {

class Chooser;
class DirectionField;

/// What the operator dials for the step shown, in the order pulse, lines, hand, passes: the seven that matter, the rest unfolded.
class SettingsForm : public QWidget {
  Q_OBJECT
 public:
  explicit SettingsForm(ProjectDocument& document, QWidget* parent = nullptr);

 private:
  enum class Importance { Everyday, Seldom };
  /// For which machines and patterns a row makes sense.
  enum class Need { Always, Pulsed, Continuous, ScanSpeed, Swinging, Spacing, OneWay, EdgeTrim, Turns };
  struct Entry {
    Form::Row row;
    Importance importance;
    Need need;
  };
  struct Number {
    QuantityField* field;
    double Settings::*member;
  };

  void addPulse();
  void addLines();
  void addHand();
  void addPasses();
  Form::Row add(const QString& caption, QWidget* field, Importance importance, Need need = Need::Always);
  QuantityField* makeNumber(const char* objectName, double Settings::*member, const QString& undoText,
                            QuantityField::Description description);
  QCheckBox* makeSwitch(const char* objectName, const QString& text, const QString& tip, void (*edit)(ProjectDocument&, bool));
  QWidget* makeFrameFields();
  Chooser* makeSwathOrder();
  QuantityField* makeWander();

  void refresh(Changes changes);
  void refreshMachine();
  void refreshValues();
  void refreshVisibility();
  void refreshFrame(Pattern pattern);
  bool isNeeded(Need need) const;

  ProjectDocument& m_document;
  Form* m_form;
  QToolButton* m_all;
  std::vector<Entry> m_entries;
  std::vector<Number> m_numbers;
  Form::Row m_stepRow;
  Chooser* m_step;
  QuantityField* m_power = nullptr;
  QuantityField* m_repetition = nullptr;
  Chooser* m_pulseDuration = nullptr;
  QuantityField* m_width = nullptr;
  QuantityField* m_height = nullptr;
  QuantityField* m_spacing = nullptr;
  Form::Row m_frameRow;
  Form::Row m_spacingRow;
  Chooser* m_pattern = nullptr;
  QuantityField* m_scanSpeed = nullptr;
  QuantityField* m_oscillation = nullptr;
  QCheckBox* m_oneWay = nullptr;
  QCheckBox* m_beamOff = nullptr;
  QLabel* m_pace = nullptr;
  Chooser* m_swathOrder = nullptr;
  DirectionField* m_direction = nullptr;
  QuantityField* m_wander = nullptr;
  QuantityField* m_passes = nullptr;
};

}  // namespace bw
