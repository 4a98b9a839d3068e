using System.Security.Cryptography;
using System.Text.RegularExpressions;
using Dapper;
using FuelHistory.Host;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Tests.Host;

public sealed class SqliteFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;

    private string Database => Path.Combine(folder, "sub", "test.db");

    [Fact]
    public void Every_connection_has_the_settings_that_durability_rests_on()
    {
        using var file = Open();
        for (var i = 0; i < 2; i++)
        {
            using var first = file.Open();
            using var second = file.Open();
            foreach (var connection in new[] { first, second })
            {
                Assert.Equal("wal", connection.QuerySingle<string>("PRAGMA journal_mode"));
                Assert.Equal(2, connection.QuerySingle<long>("PRAGMA synchronous"));
                Assert.Equal(1, connection.QuerySingle<long>("PRAGMA foreign_keys"));
                Assert.Equal(0, connection.QuerySingle<long>("PRAGMA trusted_schema"));
                Assert.Equal(1, connection.QuerySingle<long>("PRAGMA cell_size_check"));
                Assert.InRange(connection.DefaultTimeout, 1, 5);
            }
        }
    }

    [Fact]
    public void File_that_was_made_is_marked_as_ours_and_every_table_is_strict()
    {
        using var file = Open();
        using var connection = file.Open();

        Assert.Equal(SqliteFile.ApplicationId, connection.QuerySingle<long>("PRAGMA application_id"));
        Assert.Equal(Migrations.Embedded()[^1].Number, connection.QuerySingle<long>("PRAGMA user_version"));
        Assert.All(connection.Query<(string Name, long Strict)>("SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND name NOT LIKE 'sqlite%'"), t => Assert.Equal(1, t.Strict));
        Assert.False(File.Exists(Database + ".new"));
    }

    [Fact]
    public void File_of_another_program_is_refused_and_left_as_it_was()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Database)!);
        using (SqliteConnection other = new($"Data Source={Database};Pooling=False"))
        {
            other.Open();
            other.Execute("CREATE TABLE orders (id INTEGER PRIMARY KEY); PRAGMA application_id = 7");
        }

        Refused("another program (application id 7)");
    }

    [Fact]
    public void Empty_file_where_a_database_was_expected_is_refused()
    {
        Write("");
        Refused("is empty");
    }

    [Fact]
    public void File_that_is_no_database_is_refused_and_left_as_it_was()
    {
        Write(string.Concat(Enumerable.Repeat("receipts of the year\n", 100)));
        Refused("cannot be used as the database");
    }

    [Fact]
    public void File_of_a_newer_program_is_refused_and_left_as_it_was()
    {
        Open().Dispose();
        using (SqliteConnection connection = new($"Data Source={Database};Pooling=False"))
        {
            connection.Open();
            connection.Execute("PRAGMA user_version = 4000; PRAGMA wal_checkpoint(TRUNCATE)");
        }

        Refused("newer program (its version 4000");
    }

    [Fact]
    public void Second_start_on_the_same_file_changes_nothing()
    {
        Open().Dispose();
        using var again = Open();
        using var connection = again.Open();

        Assert.Equal(Migrations.Embedded().Count, connection.QuerySingle<long>("SELECT count(*) FROM migration"));
    }

    [Fact]
    public void No_transaction_is_deferred_and_no_statement_is_put_together()
    {
        foreach (var path in Directory.EnumerateFiles(Path.Combine(Repository.Root, "api", "host"), "*.cs", SearchOption.AllDirectories))
        {
            var text = File.ReadAllText(path);
            Assert.DoesNotContain("deferred: true", text, StringComparison.Ordinal);
            Assert.DoesNotMatch(new Regex("""\$"+\s*(SELECT|INSERT|UPDATE|DELETE|WITH)\b"""), text);
            Assert.DoesNotMatch(new Regex(@"SELECT\s+\*|\.\*\s", RegexOptions.None), Regex.Replace(text, "//.*", ""));
        }
    }

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    private SqliteFile Open() => SqliteFile.OpenOrCreate(Database, 1, TimeProvider.System);

    private void Write(string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Database)!);
        File.WriteAllText(Database, text);
    }

    private void Refused(string says)
    {
        var before = SHA256.HashData(File.ReadAllBytes(Database));
        var refused = Assert.Throws<StartException>(Open);

        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, SHA256.HashData(File.ReadAllBytes(Database)));
    }
}
