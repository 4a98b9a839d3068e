using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

/// <summary>One business step: one immediate transaction at one instant. Without <see cref="Commit"/> nothing is stored.</summary>
public sealed class Session : IDisposable
{
    /// <param name="reads">Only reads: one state of the file, and no writer has to wait.</param>
    public Session(SqliteFile file, TimeProvider clock, bool reads = false)
    {
        Now = clock.GetUtcNow();
        Today = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        Connection = file.Open();
        try
        {
            Transaction = Connection.BeginTransaction(deferred: reads);
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
