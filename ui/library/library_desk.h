// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"

#include <QObject>
#include <QString>
#include <QTimer>

#include <array>
#include <functional>
#include <memory>

namespace bw {

/// How the library stands, as the window says it.
struct LibraryState {
  QString path;
  bool open = false;
  bool readOnly = false;
  bool invented = false;  // examples in a library of their own, which goes with the program
  std::size_t recipes = 0;
  QString notice;                            // about the clock; empty: nothing
  std::shared_ptr<const Library> materials;  // for names and colours
  std::vector<Machine> machines;
};

/// What went wrong, and what a person can do about it.
struct LibraryProblem {
  LibraryTrouble trouble = LibraryTrouble::Io;
  QString sentence;
  bool opening = false;  // the library is not open now
  QString backup;        // path of the newest backup; empty: none
  QString backupDate;
};

enum class LibraryAccess { ReadWrite, ReadOnly };

/// The only owner of the library's store: all calls run one after another on a thread of its own, and what they give comes back to the
/// interface's thread. The interface never waits for it; only when the desk goes are writes that still wait finished first.
class LibraryDesk : public QObject {
  Q_OBJECT
 public:
  /// Of requests on one lane only the newest counts: those that still wait are dropped, and so are late results. Each: none is dropped.
  enum class Lane { Each, Search, Rows, Page, Watch, Stock };
  /// What is left to do on the interface's thread.
  using Delivery = std::function<void()>;
  using Work = std::function<Delivery(LibraryStore&)>;

  explicit LibraryDesk(LibraryOptions options = {}, QObject* parent = nullptr);
  ~LibraryDesk() override;

  void open(const QString& path, LibraryAccess access = LibraryAccess::ReadWrite);
  /// Makes a library in a folder that goes with the desk, fills it and opens it read-only.
  void openInvented(std::function<void(LibraryStore&)> fill);
  /// Puts the backup in the place of the library that could not be read, and opens it.
  void restore(const QString& backup);
  /// Copies the library with its photos to another place and goes on there. The old file stays.
  void copyTo(const QString& path);

  /// A look at the library. `work` runs on the desk's thread, what it returns on this one.
  void ask(Lane lane, Work work);
  /// A write: never dropped. Afterwards the library counts as changed.
  void write(Work work);

  const LibraryState& state() const { return m_state; }
  /// Something was asked whose answer is not there yet.
  bool isBusy() const { return m_waiting > 0; }
  /// Looks now and then whether somebody else changed the library.
  void watch(bool on);

 signals:
  void stateChanged();
  void libraryChanged();  // recipes were saved, here or elsewhere
  void failed(const bw::LibraryProblem& problem);
  void copied(const QString& from);

 private:
  struct Bench;
  struct Job {
    Lane lane = Lane::Each;
    quint64 number = 0;
    bool lasting = false;  // still done when the desk goes
    std::function<Delivery(Bench&)> work;
  };
  void post(Lane lane, bool lasting, std::function<Delivery(Bench&)> work);
  void deliver(Lane lane, quint64 number, const Delivery& delivery);
  void run();
  Delivery attempt(const Job& job);
  Delivery opened(Bench& bench);
  Delivery report(Bench& bench, LibraryTrouble trouble, const QString& sentence, bool opening);

  std::unique_ptr<Bench> m_bench;
  std::array<quint64, 6> m_newest{};
  std::size_t m_waiting = 0;
  LibraryState m_state;
  QTimer m_watch;
};

}  // namespace bw
