using Dapper;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

/// <summary>The one database file. Every connection gets the same settings; a file that is not ours, is empty or comes from a
/// newer program is refused before anything is written to it.</summary>
public sealed class SqliteFile : IDisposable
{
    /// <summary>"FHIS", so that other programs (and file(1)) can tell what the file is.</summary>
    public const int ApplicationId = 0x46484953;

    /// <summary>Before this version a race at the restart of the write-ahead log could damage a file (sqlite.org, release notes 3.51.3).</summary>
    private static readonly Version OldestSqlite = new(3, 51, 3);

    // FULL: what was answered is on the disk. The rest is for files that someone else may have touched.
    private const string Settings = """
        PRAGMA journal_mode = WAL;
        PRAGMA synchronous = FULL;
        PRAGMA foreign_keys = ON;
        PRAGMA trusted_schema = OFF;
        PRAGMA cell_size_check = ON;
        """;

    private readonly string connectionString;

    private SqliteFile(string path, int busySeconds)
    {
        Path = path;
        BusySeconds = busySeconds;
        connectionString = Address(path, busySeconds, SqliteOpenMode.ReadWrite);
    }

    public string Path { get; }

    /// <summary>How long a writer waits for another before the request is answered with storage-busy.</summary>
    public int BusySeconds { get; }

    /// <exception cref="StartException">The file cannot be used; the message says why and what to do. It is left as it was.</exception>
    public static SqliteFile OpenOrCreate(string path, int busySeconds, TimeProvider clock)
    {
        var full = System.IO.Path.GetFullPath(path);
        CheckLibrary();
        try
        {
            if (!File.Exists(full))
            {
                Create(full, busySeconds, clock);
            }

            SqliteFile file = new(full, busySeconds);
            file.Check();
            using var connection = file.Open();
            Migrations.Apply(connection, Migrations.Embedded(), clock);
            return file;
        }
        catch (SqliteException e)
        {
            throw new StartException($"{full} cannot be used as the database: {e.Message}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StartException($"{full} cannot be opened: {e.Message}");
        }
    }

    /// <summary>Pooled; closing it gives it back.</summary>
    public SqliteConnection Open()
    {
        SqliteConnection connection = new(connectionString);
        connection.Open();
        connection.Execute(Settings);
        return connection;
    }

    public void Dispose()
    {
        using SqliteConnection connection = new(connectionString);
        SqliteConnection.ClearPool(connection);
    }

    private static void CheckLibrary()
    {
        using SqliteConnection memory = new("Data Source=:memory:");
        memory.Open();
        if (new Version(memory.ServerVersion) < OldestSqlite)
        {
            throw new StartException($"SQLite {memory.ServerVersion} is older than {OldestSqlite}, which this program needs.");
        }
    }

    // Built under another name and moved into place whole, so that a crash at the first start never leaves an empty file behind.
    private static void Create(string path, int busySeconds, TimeProvider clock)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        var draft = path + ".new";
        foreach (var left in new[] { draft, draft + "-wal", draft + "-shm" })
        {
            File.Delete(left);
        }

        using (SqliteConnection connection = new(Address(draft, busySeconds, SqliteOpenMode.ReadWriteCreate, pooling: false)))
        {
            connection.Open();
            connection.Execute(Settings);
            connection.Execute($"PRAGMA application_id = {ApplicationId}");
            Migrations.Apply(connection, Migrations.Embedded(), clock);
        }

        File.Move(draft, path);
    }

    private void Check()
    {
        if (new FileInfo(Path).Length == 0)
        {
            throw new StartException($"{Path} is empty, where a database was expected. Restore it from a copy, or move it away to begin a new one.");
        }

        using SqliteConnection connection = new(Address(Path, BusySeconds, SqliteOpenMode.ReadOnly, pooling: false));
        connection.Open();
        var id = connection.QuerySingle<long>("PRAGMA application_id");
        if (id != ApplicationId)
        {
            throw new StartException($"{Path} is an SQLite file of another program (application id {id}); it is left untouched. Name another file with Database=...");
        }

        var version = connection.QuerySingle<long>("PRAGMA user_version");
        var newest = Migrations.Embedded()[^1].Number;
        if (version > newest)
        {
            throw new StartException($"{Path} was written by a newer program (its version {version}, this program knows {newest}); it is left untouched. Use the newer program.");
        }
    }

    private static string Address(string path, int busySeconds, SqliteOpenMode mode, bool pooling = true) =>
        new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = pooling, DefaultTimeout = busySeconds, ForeignKeys = true }.ToString();
}

/// <summary>The program cannot start; the message is for the person who started it.</summary>
public sealed class StartException(string message) : Exception(message);
