using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

/// <summary>One business step: one immediate transaction at one instant. Without <see cref="Commit"/> nothing is stored.</summary>
public sealed class Session : IDisposable
{
    public Session(SqliteFile file, TimeProvider clock)
    {
        Now = clock.GetUtcNow();
        Today = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        Connection = file.Open();
        try
        {
            Transaction = Connection.BeginTransaction(deferred: false);
        }
        catch
        {
            Connection.Dispose();
            throw;
        }
    }

    public SqliteConnection Connection { get; }
    public SqliteTransaction Transaction { get; }
    public DateTimeOffset Now { get; }
    public DateOnly Today { get; }

    public void Commit() => Transaction.Commit();

    public void Dispose()
    {
        Transaction.Dispose();
        Connection.Dispose();
    }
}
