// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/library_desk.h"

#include "core/library/library_backup.h"
#include "ui/library/library_copy.h"
#include "ui/style/to_qt.h"

#include <QTemporaryDir>

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

namespace bw {
namespace {

constexpr int watchInterval_ms = 2000;

QString toText(const std::filesystem::path& path) { return QString::fromStdU16String(path.u16string()); }

}  // namespace

/// What belongs to the desk's thread, and the queue between the two.
struct LibraryDesk::Bench {
  LibraryOptions options;
  std::filesystem::path path;
  LibraryAccess access = LibraryAccess::ReadWrite;
  bool invented = false;
  std::unique_ptr<QTemporaryDir> folder;  // of the invented examples
  std::unique_ptr<LibraryStore> store;

  std::mutex mutex;
  std::condition_variable news;
  std::deque<Job> queue;
  bool closing = false;
  std::thread thread;

  void openStore() {
    store.reset();
    LibraryOptions wanted = options;
    wanted.readOnly = access == LibraryAccess::ReadOnly;
    wanted.create = !wanted.readOnly;
    store = std::make_unique<LibraryStore>(path, wanted);
  }

  /// One a day; a library whose copy fails is still one to work with.
  void backUp() const {
    if (invented || store->readOnly()) return;
    try {
      backUpDaily(path, options.now ? options.now() : std::chrono::system_clock::now());
    } catch (const LibraryError& error) {
      qWarning("no backup of the library was made: %s", error.what());
    }
  }
};

LibraryDesk::LibraryDesk(LibraryOptions options, QObject* parent) : QObject(parent), m_bench(std::make_unique<Bench>()) {
  m_bench->options = std::move(options);
  m_watch.setInterval(watchInterval_ms);
  connect(&m_watch, &QTimer::timeout, this, [this] {
    if (!m_state.open) return;
    ask(Lane::Watch, [this](LibraryStore& store) -> Delivery {
      if (!store.changedByOthers()) return {};
      return [this, count = store.recipeCount()] {
        m_state.recipes = count;
        emit stateChanged();
        emit libraryChanged();
      };
    });
  });
  m_bench->thread = std::thread([this] { run(); });
}

LibraryDesk::~LibraryDesk() {
  {
    const std::lock_guard lock(m_bench->mutex);
    std::erase_if(m_bench->queue, [](const Job& job) { return !job.lasting; });
    m_bench->closing = true;
  }
  m_bench->news.notify_one();
  m_bench->thread.join();
}

void LibraryDesk::run() {
  for (;;) {
    Job job;
    {
      std::unique_lock lock(m_bench->mutex);
      m_bench->news.wait(lock, [this] { return m_bench->closing || !m_bench->queue.empty(); });
      if (m_bench->queue.empty()) break;
      job = std::move(m_bench->queue.front());
      m_bench->queue.pop_front();
    }
    const Delivery delivery = attempt(job);
    // What is still under way when this object goes, goes with it.
    QMetaObject::invokeMethod(
        this, [this, job, delivery] { deliver(job.lane, job.number, delivery); }, Qt::QueuedConnection);
  }
  m_bench->store.reset();
}

LibraryDesk::Delivery LibraryDesk::attempt(const Job& job) {
  try {
    return job.work(*m_bench);
  } catch (const LibraryError& error) {
    return report(*m_bench, error.trouble(), QString::fromUtf8(error.what()), !m_bench->store);
  } catch (const std::exception& error) {
    return report(*m_bench, LibraryTrouble::Io, QString::fromUtf8(error.what()), !m_bench->store);
  }
}

LibraryDesk::Delivery LibraryDesk::report(Bench& bench, LibraryTrouble trouble, const QString& sentence, bool opening) {
  LibraryProblem problem{trouble, sentence, opening, {}, {}};
  if (trouble == LibraryTrouble::Corrupt || opening) {
    try {
      if (const auto backups = backupsOf(bench.path); !backups.empty()) {
        problem.backup = toText(backups.front().path);
        problem.backupDate = QString::fromStdString(backups.front().date);
      }
    } catch (const std::exception&) {  // then there is none to offer
    }
  }
  LibraryState state;
  state.path = toText(bench.path);
  return [this, problem, state] {
    if (problem.opening) {
      m_state = state;
      emit stateChanged();
    }
    emit failed(problem);
  };
}

void LibraryDesk::post(Lane lane, bool lasting, std::function<Delivery(Bench&)> work) {
  const quint64 number = ++m_newest[static_cast<std::size_t>(lane)];
  ++m_waiting;
  {
    const std::lock_guard lock(m_bench->mutex);
    if (lane != Lane::Each) m_waiting -= std::erase_if(m_bench->queue, [lane](const Job& job) { return job.lane == lane; });
    m_bench->queue.push_back({lane, number, lasting, std::move(work)});
  }
  m_bench->news.notify_one();
}

void LibraryDesk::deliver(Lane lane, quint64 number, const Delivery& delivery) {
  --m_waiting;
  if (delivery && (lane == Lane::Each || number == m_newest[static_cast<std::size_t>(lane)])) delivery();
}

void LibraryDesk::ask(Lane lane, Work work) {
  post(lane, false, [work = std::move(work)](Bench& bench) { return bench.store ? work(*bench.store) : Delivery(); });
}

void LibraryDesk::write(Work work) {
  post(Lane::Each, true, [this, work = std::move(work)](Bench& bench) -> Delivery {
    if (!bench.store) throw LibraryError(LibraryTrouble::Io, tr("The library is not open, so nothing was saved.").toStdString());
    const Delivery then = work(*bench.store);
    return [this, then, count = bench.store->recipeCount()] {
      m_state.recipes = count;
      emit stateChanged();
      emit libraryChanged();
      if (then) then();
    };
  });
}

LibraryDesk::Delivery LibraryDesk::opened(Bench& bench) {
  bench.openStore();
  bench.backUp();
  LibraryState state{toText(bench.store->path()),
                     true,
                     bench.store->readOnly(),
                     bench.invented,
                     bench.store->recipeCount(),
                     QString::fromStdString(bench.store->clockNotice()),
                     {},
                     {}};
  state.materials = std::make_shared<const Library>(bench.store->materials());
  for (const auto& entry : bench.store->machines()) state.machines.push_back(entry.value.machine);
  return [this, state] {
    m_state = state;
    emit stateChanged();
    emit libraryChanged();
  };
}

void LibraryDesk::open(const QString& path, LibraryAccess access) {
  post(Lane::Each, true, [this, path = toPath(path), access](Bench& bench) {
    bench.store.reset();
    bench.folder.reset();
    bench.path = path;
    bench.access = access;
    bench.invented = false;
    return opened(bench);
  });
}

void LibraryDesk::openInvented(std::function<void(LibraryStore&)> fill) {
  post(Lane::Each, true, [this, fill = std::move(fill)](Bench& bench) {
    bench.store.reset();
    bench.folder = std::make_unique<QTemporaryDir>();
    bench.path = toPath(bench.folder->filePath(QStringLiteral("invented-examples.sqlite")));
    bench.invented = true;
    bench.access = LibraryAccess::ReadWrite;
    bench.openStore();
    fill(*bench.store);
    bench.access = LibraryAccess::ReadOnly;
    return opened(bench);
  });
}

void LibraryDesk::restore(const QString& backup) {
  post(Lane::Each, true, [this, backup = toPath(backup)](Bench& bench) {
    bench.store.reset();
    restoreBackup(bench.path, backup, bench.options.now ? bench.options.now() : std::chrono::system_clock::now());
    bench.access = LibraryAccess::ReadWrite;
    return opened(bench);
  });
}

void LibraryDesk::copyTo(const QString& path) {
  post(Lane::Each, true, [this, path = toPath(path)](Bench& bench) -> Delivery {
    const std::filesystem::path from = bench.path;
    copyLibrary(from, path, bench.options.now ? bench.options.now() : std::chrono::system_clock::now());
    bench.path = path;
    bench.access = LibraryAccess::ReadWrite;
    const Delivery said = opened(bench);
    return [this, said, from] {
      said();
      emit copied(toText(from));
    };
  });
}

void LibraryDesk::watch(bool on) {
  if (on) {
    m_watch.start();
  } else {
    m_watch.stop();
  }
}

}  // namespace bw
