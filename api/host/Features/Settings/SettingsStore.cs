using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Settings;

using Settings = FuelHistory.Contracts.Settings;

/// <summary>One set of settings for the whole database, with its earlier versions.</summary>
public sealed class SettingsStore
{
    public const string Kind = "settings";
    public const string EntryId = "settings";

    public static readonly Settings Default = new(
        "EUR", 60, null, new Dictionary<string, string> { ["pressure"] = "bar", ["temperature"] = "°C", ["distance"] = "km" }, "en");

    private const string SelectNewest = """
        SELECT e.version AS Version, s.currency AS Currency, s.labour_rate_minor AS LabourRateMinor, s.tools AS Tools, s.units AS Units, s.locale AS Locale, s.figures AS Figures
        FROM entry AS e JOIN settings AS s ON s.seq = e.content_seq
        WHERE e.kind = 'settings' AND e.recorded_at <= @knownAt
        ORDER BY e.version DESC LIMIT 1
        """;

    private const string InsertContent = """
        INSERT INTO settings (seq, currency, labour_rate_minor, tools, units, locale, figures)
        VALUES (@seq, @Currency, @labourRateMinor, @tools, @units, @Locale, @Figures)
        """;

    /// <summary>Version 0: nothing was set yet, the defaults hold.</summary>
    public (Settings Settings, int Version) Newest(SqliteConnection connection, string knownAt = Times.End) =>
        connection.QuerySingleOrDefault<Row>(SelectNewest, new { knownAt }) is { } row ? (row.Settings, (int)row.Version) : (Default, 0);

    public void Store(Session session, Settings input)
    {
        var before = Ledger.Newest(session.Connection, Kind, EntryId);
        var seq = before is null ? Ledger.BeginNamed(session, Kind, EntryId) : Ledger.Follow(session, Kind, before);
        session.Connection.Execute(InsertContent, new
        {
            seq,
            input.Currency,
            labourRateMinor = Amounts.ToMinor(input.LabourRate, input.Currency),
            tools = Lists.WriteOrNull(input.ToolsAtHand),
            units = Lists.Write(input.Units),
            input.Locale,
            input.Figures,
        });
    }

    internal sealed record Row
    {
        public long Version { get; init; }
        public string Currency { get; init; } = "";
        public long LabourRateMinor { get; init; }
        public string? Tools { get; init; }
        public string Units { get; init; } = "";
        public string Locale { get; init; } = "";
        public string Figures { get; init; } = "";

        public Settings Settings => new(
            Currency, Amounts.FromMinor(LabourRateMinor, Currency), Lists.ReadOrNull<IReadOnlyList<string>>(Tools),
            Lists.Read<IReadOnlyDictionary<string, string>>(Units), Locale, Figures);
    }
}
