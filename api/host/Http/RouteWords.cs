using FuelHistory.Contracts;
using Microsoft.AspNetCore.Http.Metadata;

namespace FuelHistory.Host.Http;

/// <summary>What a route line says beside its handler: name, summary, and each refusal that may come.</summary>
public static class RouteWords
{
    private static readonly string[] ReadMethods = [HttpMethods.Get, HttpMethods.Head];

    /// <summary>GET, and HEAD with the same headers.</summary>
    public static RouteHandlerBuilder Read(this IEndpointRouteBuilder api, string route, Delegate handler) =>
        api.MapMethods(route, ReadMethods, handler);

    public static RouteHandlerBuilder Says(this RouteHandlerBuilder route, string operation, string summary) =>
        route.WithName(operation).WithSummary(summary);

    public static RouteHandlerBuilder Refuses(this RouteHandlerBuilder route, params ReadOnlySpan<int> statuses)
    {
        foreach (var status in statuses)
        {
            route.WithMetadata(Refusal(status));
        }

        return route;
    }

    /// <summary>Refusals that can come from any route, or from any with a body.</summary>
    public static RouteGroupBuilder RefusesAnywhere(this RouteGroupBuilder group)
    {
        ((IEndpointConventionBuilder)group).Finally(endpoint =>
        {
            int[] anywhere = endpoint.Metadata.OfType<IAcceptsMetadata>().Any() ? [400, 413, 415, 500, 503, 507] : [500, 503];
            foreach (var status in anywhere)
            {
                endpoint.Metadata.Add(Refusal(status));
            }
        });
        return group;
    }

    private static ProducesResponseTypeMetadata Refusal(int status) => new(status, typeof(Problem), [Refused.MediaType]);
}
