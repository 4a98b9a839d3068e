using System.Collections.Concurrent;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Sqlite;

/// <summary>The newest entry that concerns a vehicle, and the newest that concerns all (instruments, settings).</summary>
public readonly record struct Revision(long Vehicle, long Everything);

/// <summary>Reads revisions over a connection of its own with a prepared statement: this is asked before every cached answer,
/// and a pooled connection with its settings would cost several times as much.</summary>
public sealed class Revisions(SqliteFile file) : IDisposable
{
    private const string Select = """
        SELECT coalesce((SELECT max(seq) FROM entry WHERE vehicle_id = @vehicleId), 0),
               coalesce((SELECT max(seq) FROM entry WHERE vehicle_id IS NULL), 0)
        """;

    private readonly Lock gate = new();
    private readonly ConcurrentDictionary<string, string> vehicles = new();
    private SqliteConnection? connection;
    private SqliteCommand? command;

    public Revision Of(string vehicleId)
    {
        lock (gate)
        {
            if (command is null)
            {
                connection = file.Open();
                command = connection.CreateCommand();
                command.CommandText = Select;
                command.Parameters.Add("@vehicleId", SqliteType.Text);
                command.Prepare();
            }

            command.Parameters[0].Value = vehicleId;
            using var reader = command.ExecuteReader();
            reader.Read();
            return new Revision(reader.GetInt64(0), reader.GetInt64(1));
        }
    }

    /// <summary>The vehicle of an entry; it never changes, so it is remembered.</summary>
    public string? VehicleOf(string kind, string entryId)
    {
        if (vehicles.TryGetValue(entryId, out var known))
        {
            return known;
        }

        using var own = file.Open();
        var found = Ledger.Newest(own, kind, entryId)?.VehicleId;
        return found is null ? null : vehicles.GetOrAdd(entryId, found);
    }

    public void Dispose()
    {
        command?.Dispose();
        connection?.Dispose();
    }
}
