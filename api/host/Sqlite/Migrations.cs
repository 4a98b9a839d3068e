using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Dapper;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

public sealed record Migration(int Number, string Name, string Sql)
{
    public string Sha256 => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Sql)));
}

/// <summary>Numbered files of db/migrations, applied in order, each in a transaction of its own together with its note in the
/// table migration and with user_version.</summary>
public static class Migrations
{
    private const string Table = """
        CREATE TABLE IF NOT EXISTS migration (
          number INTEGER PRIMARY KEY,
          name TEXT NOT NULL,
          sha256 TEXT NOT NULL,
          applied_at TEXT NOT NULL
        ) STRICT
        """;

    private const string Applied = "SELECT number AS Number, name AS Name, sha256 AS Sha256 FROM migration ORDER BY number";
    private const string Note = "INSERT INTO migration (number, name, sha256, applied_at) VALUES (@Number, @Name, @Sha256, @at)";

    public static IReadOnlyList<Migration> Embedded()
    {
        const string Prefix = "migrations/";
        var assembly = typeof(Migrations).Assembly;
        return [.. assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(n =>
        {
            using StreamReader reader = new(assembly.GetManifestResourceStream(n)!);
            var name = n[Prefix.Length..];
            return new Migration(int.Parse(name[..4], CultureInfo.InvariantCulture), name, reader.ReadToEnd());
        })];
    }

    /// <exception cref="StartException">A migration that was applied before differs from the file of today.</exception>
    public static void Apply(SqliteConnection connection, IReadOnlyList<Migration> migrations, TimeProvider clock)
    {
        // The lock is taken before the list is read: of two programs that start together, one migrates and the other finds it done.
        foreach (var migration in migrations)
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            connection.Execute(Table, transaction: transaction);
            var before = connection.Query<Row>(Applied, transaction: transaction).SingleOrDefault(r => r.Number == migration.Number);
            if (before is null)
            {
                connection.Execute(migration.Sql, transaction: transaction);
                connection.Execute(Note, new { migration.Number, migration.Name, migration.Sha256, at = Times.Write(clock.GetUtcNow()) }, transaction);
                connection.Execute($"PRAGMA user_version = {migration.Number}", transaction: transaction);
                transaction.Commit();
            }
            else if (before.Sha256 != migration.Sha256)
            {
                throw new StartException($"Migration {migration.Name} was applied to this database with another content ({before.Sha256[..12]}, now {migration.Sha256[..12]}); a migration must not be edited once it is out.");
            }
        }
    }

    internal sealed record Row
    {
        public long Number { get; init; }
        public string Name { get; init; } = "";
        public string Sha256 { get; init; } = "";
    }
}
