using System.Text.RegularExpressions;
using FuelHistory.Contracts;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Settings;

using Settings = FuelHistory.Contracts.Settings;

public static partial class SettingsEndpoints
{
    private const decimal DearestHour = 100_000;

    public static void MapSettings(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Settings");
        api.Read(Routes.Settings, Get).Says("getSettings", "Currency, labour rate, tools at hand, units, locale, and how chances are said");
        api.MapPut(Routes.Settings, Replace).Says("replaceSettings", "Change the settings: a new version").Refuses(412, 422);
    }

    public static Current<Settings> Get(SettingsStore store, SqliteFile file)
    {
        using var connection = file.Open();
        var (settings, version) = store.Newest(connection);
        return new Current<Settings>(settings, Tags.Of(version));
    }

    public static Results<Current<Settings>, Refused> Replace(
        Settings input, [FromHeader(Name = "If-Match")] string? ifMatch, SettingsStore store, FaultModelFolder models, SqliteFile file, TimeProvider clock)
    {
        using Session session = new(file, clock);
        var (_, before) = store.Newest(session.Connection);
        if (!Tags.Allow(ifMatch, before))
        {
            return ProblemAnswers.Stale(ifMatch!, before);
        }

        var faults = Check(input, models);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        store.Store(session, input);
        var (settings, version) = store.Newest(session.Connection);
        session.Commit();
        return new Current<Settings>(settings, Tags.Of(version));
    }

    private static Faults Check(Settings input, FaultModelFolder models)
    {
        Faults faults = new();
        MoneyRules.Currency(faults, "/currency", input.Currency);
        MoneyRules.Amount(faults, "/labourRate", input.LabourRate, input.Currency, DearestHour);
        if (input.ToolsAtHand is { Count: > 0 } wanted)
        {
            var tools = Tools(models, wanted);
            for (var i = 0; i < wanted.Count; i++)
            {
                faults.Known($"/toolsAtHand/{i}", "tool", wanted[i], tools);
            }
        }

        foreach (var (quantity, unit) in input.Units)
        {
            if (faults.Known($"/units/{quantity}", "quantity", quantity, Quantity.All.Select(q => q.Id)))
            {
                MeasuredRules.Fits(faults, $"/units/{quantity}", unit, Quantity.Find(quantity)!);
            }
        }

        if (!Locale().IsMatch(input.Locale))
        {
            faults.Add("/locale", Problems.Unknown, $"locale \"{input.Locale}\" is not a language tag; write en, de or en-GB.");
        }

        faults.OneOf("/figures", input.Figures, [.. PlainFigures.Styles]);
        return faults;
    }

    /// <summary>Tools that some model knows: all those wanted, or all there are. Models are read only until it is known.</summary>
    private static HashSet<string> Tools(FaultModelFolder models, IReadOnlyList<string> wanted)
    {
        HashSet<string> known = [];
        foreach (var model in models.Known)
        {
            if (wanted.All(known.Contains))
            {
                break;
            }

            known.UnionWith(model.Loaded.Compiled.Source.Tools.Select(t => t.Id));
        }

        return known;
    }

    [GeneratedRegex(@"\A[a-zA-Z]{2,3}(-[a-zA-Z0-9]{2,8}){0,3}\z")]
    private static partial Regex Locale();
}
