using System.Reflection;
using System.Security.Cryptography;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;

namespace FuelHistory.Host.Features.Charts;

public static class ChartEndpoints
{
    public static void MapCharts(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Charts");
        api.Read(Routes.LeakDownChart, LeakDown).Says("drawLeakDown", "A leak-down, or two (with), as SVG, PNG, web page, CSV or JSON").Refuses(404, 406, 422);
        api.Read(Routes.TrendChart, Trend).Says("drawTrend", "What one check (check) showed over the years, with the limit, as SVG, PNG, web page, CSV or JSON").Refuses(404, 406, 422);
    }

    public static Results<ChartAnswer, Refused> LeakDown(
        string entryId, string? with, string? format, [FromHeader(Name = "Accept")] string? accept, LeakDownViews views, SqliteFile file)
    {
        using var connection = file.Open();
        if (views.Find(connection, entryId) is not { } one)
        {
            return ProblemAnswers.NotFound("leak-down", entryId);
        }

        Faults faults = new();
        var other = with is null ? null : views.Find(connection, with);
        if (with is not null && other is null)
        {
            faults.Add("with", Problems.Unknown, $"There is no leak-down with the id \"{with}\" to be drawn beside it.");
        }

        return Choose(faults, format, accept, out var chosen) is { } refusal ? refusal : new ChartAnswer(LeakChart.Of(one, other), chosen);
    }

    public static Results<ChartAnswer, Refused> Trend(
        string vehicleId, string? check, string? format, [FromHeader(Name = "Accept")] string? accept, TrendChart trend, Cars cars, SqliteFile file)
    {
        using var connection = file.Open();
        if (cars.Find(connection, vehicleId) is not { } car)
        {
            return ProblemAnswers.NotFound("vehicle", vehicleId);
        }

        Faults faults = new();
        IReadOnlyList<string> measured = [.. car.Model.Checks.Where(c => c.Kind is CheckKind.Measurement or CheckKind.LeakDown).Select(c => c.Id)];
        if (check is null)
        {
            faults.Required("check", $"check is missing; it is one of {string.Join(", ", measured)}.");
        }
        else
        {
            faults.Known("check", "check with figures", check, measured);
        }

        return Choose(faults, format, accept, out var chosen) is { } refusal ? refusal : new ChartAnswer(trend.Of(connection, car, car.Check(check!)!), chosen);
    }

    // format= goes before Accept: a link cannot say what it accepts
    private static Refused? Choose(Faults faults, string? format, string? accept, out string chosen)
    {
        chosen = format ?? "";
        if (format is not null)
        {
            faults.OneOf("format", format, [.. ChartForms.All.Select(f => f.Format)]);
        }

        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        if (format is null && (Accepted(accept) is not { } found || (chosen = found) is null))
        {
            return ProblemAnswers.NotAcceptable(accept, ChartForms.All.Select(f => f.MediaType));
        }

        return null;
    }

    private static string? Accepted(string? accept)
    {
        if (string.IsNullOrWhiteSpace(accept))
        {
            return ChartForms.All[0].Format;
        }

        return !MediaTypeHeaderValue.TryParseList([accept], out var wanted) ? null : wanted
            .Where(w => w.Quality is not 0).OrderByDescending(w => w.Quality ?? 1)
            .SelectMany(w => ChartForms.All.Where(f => new MediaTypeHeaderValue(f.MediaType).IsSubsetOf(w)).Select(f => f.Format))
            .FirstOrDefault();
    }
}

/// <summary>200: the chart in the form that was asked for; 304 where the reader has it already.</summary>
public sealed class ChartAnswer(ChartView chart, string format) : IResult, IEndpointMetadataProvider
{
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        var body = ChartForms.Of(chart, format, httpContext.RequestServices.GetRequiredService<IOptions<Microsoft.AspNetCore.Http.Json.JsonOptions>>().Value.SerializerOptions);
        var tag = $"\"{Convert.ToHexStringLower(SHA256.HashData(body))[..24]}\"";
        response.Headers.ETag = tag;
        response.Headers.Vary = "Accept";
        if (Tags.Names(httpContext.Request.Headers.IfNoneMatch, tag))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        response.Headers.ContentSecurityPolicy = Markup.ContentSecurityPolicy;
        var type = ChartForms.All.First(f => f.Format == format).MediaType;
        response.ContentType = format == "png" ? type : $"{type}; charset=utf-8";
        response.ContentLength = body.Length;
        if (!HttpMethods.IsHead(httpContext.Request.Method))
        {
            await response.BodyWriter.WriteAsync(body, httpContext.RequestAborted);
        }
    }

    static void IEndpointMetadataProvider.PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(ChartView), [.. ChartForms.All.Select(f => f.MediaType)]));
        builder.Metadata.Add(new Tagged());
    }
}
