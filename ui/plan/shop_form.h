// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/shop.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/form.h"

#include <functional>

class QCheckBox;
class QLineEdit;

namespace bw {

/// What a shop's room, extraction, people and prices are: the same fields for one project and for the shop as it usually is. Shows plain
/// values and says what a person made of them.
class ShopForm : public Form {
  Q_OBJECT
 public:
  enum class Of { Project, Shop };
  explicit ShopForm(Of of, QWidget* parent = nullptr);

  void setFacts(const ShopFacts& facts);

 signals:
  /// `text` names what was changed, as in "Undo change the supply".
  void edited(const bw::ShopFacts& facts, const QString& text, bw::EditKind kind);

 private:
  using Number = std::function<std::optional<double>&(ShopFacts&)>;
  using Flag = std::function<bool(ShopFacts&, std::optional<bool> set)>;

  void addRoom();
  void addExtraction();
  void addPeople();
  void addPrices();
  void addCurrency();
  void addNumber(const char* name, const QString& caption, const QString& text, QuantityField::Description description, Number number);
  QCheckBox* makeFlag(const char* name, const QString& word, const QString& tip, const QString& text, Flag flag);
  QCheckBox* makeFilter(const char* name, Filter filter, const QString& word, const QString& tip);
  QString nameOf(const char* name) const;

  struct NumberField {
    QuantityField* field;
    Number number;
  };
  struct FlagBox {
    QCheckBox* box;
    Flag flag;
  };

  Of m_of;
  ShopFacts m_facts;
  std::vector<NumberField> m_numbers;
  std::vector<FlagBox> m_flags;
  QLineEdit* m_currency = nullptr;
};

}  // namespace bw
