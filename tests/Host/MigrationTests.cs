using Dapper;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Tests.Host;

public sealed class MigrationTests : IDisposable
{
    private const string Schema = "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite%' ORDER BY rowid";
    private readonly SqliteConnection connection = new("Data Source=:memory:");

    public MigrationTests() => connection.Open();

    public static TheoryData<int> Earlier => new(Migrations.Embedded().Select(m => m.Number).SkipLast(1));

    [Fact]
    public void Schema_file_is_what_the_migrations_make()
    {
        Migrations.Apply(connection, Migrations.Embedded(), TimeProvider.System);
        var now = string.Join("\n", connection.Query<string>(Schema).Select(s => s.Trim() + ";")) + "\n";
        now = "-- Generated from db/migrations: the schema as it is today. FUELHISTORY_WRITE=1 dotnet test --filter Schema_file rewrites it.\n" + now;
        var path = Path.Combine(Repository.Root, "db", "schema.sql");
        if (Environment.GetEnvironmentVariable("FUELHISTORY_WRITE") == "1")
        {
            File.WriteAllText(path, now);
        }

        Assert.True(File.ReadAllText(path) == now, "db/schema.sql is not what the migrations make; run FUELHISTORY_WRITE=1 dotnet test --filter Schema_file and look at the difference.");
    }

    [Theory]
    [MemberData(nameof(Earlier))]
    public void Database_of_an_earlier_version_with_rows_is_brought_up_and_keeps_them(int version)
    {
        var all = Migrations.Embedded();
        Migrations.Apply(connection, [.. all.Where(m => m.Number <= version)], TimeProvider.System);
        connection.Execute("INSERT INTO entry (seq, entry_id, version, kind, vehicle_id, recorded_at, content_seq) VALUES (1, 'a', 1, 'vehicle', 'a', '2020-01-01T00:00:00.000Z', 1)");
        connection.Execute("INSERT INTO vehicle (seq, name, year, system, odometer_unit, record_complete) VALUES (1, 'Blue', '1981', 'x', 'km', 0)");

        Migrations.Apply(connection, all, TimeProvider.System);

        Assert.Equal("Blue", connection.QuerySingle<string>("SELECT v.name FROM entry AS e JOIN vehicle AS v ON v.seq = e.content_seq"));
        Assert.Equal(all[^1].Number, connection.QuerySingle<long>("PRAGMA user_version"));
        Assert.Equal(all.Select(m => m.Sha256), connection.Query<string>("SELECT sha256 FROM migration ORDER BY number"));
    }

    [Fact]
    public void Migration_that_fails_half_way_leaves_nothing_behind()
    {
        var first = Migrations.Embedded()[0];
        Migration broken = new(2, "0002_broken.sql", "CREATE TABLE half (x INTEGER) STRICT; CREATE TABLE half (x INTEGER) STRICT;");

        Assert.Throws<SqliteException>(() => Migrations.Apply(connection, [first, broken], TimeProvider.System));

        Assert.Equal(0, connection.QuerySingle<long>("SELECT count(*) FROM sqlite_schema WHERE name = 'half'"));
        Assert.Equal(1, connection.QuerySingle<long>("PRAGMA user_version"));
        Assert.Equal(1, connection.QuerySingle<long>("SELECT count(*) FROM migration"));
    }

    [Fact]
    public void Migration_edited_after_it_was_applied_is_refused()
    {
        var first = Migrations.Embedded()[0];
        Migrations.Apply(connection, [first], TimeProvider.System);

        var refused = Assert.Throws<StartException>(() => Migrations.Apply(connection, [first with { Sql = first.Sql + "\n-- a remark" }], TimeProvider.System));

        Assert.Contains("0001_entries.sql", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Migrations_are_numbered_without_gaps()
    {
        var all = Migrations.Embedded();

        Assert.Equal(Enumerable.Range(1, all.Count), all.Select(m => m.Number));
    }

    public void Dispose() => connection.Dispose();
}
